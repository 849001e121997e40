/** What a file has to say itself, where the lines of a layer that it used are to count as before. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import { chainOf, isJoint } from "./chain.ts";
import { type Carried, type Group, groupsOf } from "./groups.ts";
import { fieldsOf, itemsOf, sectionsOf } from "./items.ts";

export interface Under {
  readonly groups: readonly Group[];
  /** By the line of a `drop` of the file the words that have nothing to take back any more; of `drop all` “all”. */
  readonly idleDrops: ReadonlyMap<number, ReadonlySet<string>>;
  /** Lines of the layer that do not count, and stay out. */
  readonly leftOut: number;
}

/** A craft seen from one of its layers: what lies under it, what lies over it, and the craft's own file on top. */
interface Seen {
  readonly under: readonly Script[];
  readonly over: readonly Script[];
  readonly own: Script;
  readonly layer: Script;
  readonly catalogue: Catalogue;
}

/**
 * The lines of a layer that still count on a craft, with the drops that its own drops come to; a sentence where the
 * craft's own file cannot say the same.
 */
export function laidUnder(craft: Craft, layer: Script, catalogue: Catalogue): Under | string {
  const index = craft.scripts.indexOf(layer);
  const rest = craft.scripts.filter(({ file }) => file !== craft.file);
  const seen: Seen = {
    under: craft.scripts.slice(0, index),
    over: rest.slice(index + 1),
    own: craft.script,
    layer,
    catalogue,
  };
  const whole = groupsOf(layer, {
    items: itemsOf(layer),
    words: new Map(),
    whole: new Set(sectionsOf(layer).map(({ line }) => line)),
    along: [],
  });
  const groups: Group[] = [];
  let leftOut = 0;
  for (const group of whole) {
    const kept = keptWhy(seen, group);
    if (kept !== null) return kept;
    const drops = dropsFor(seen, group.section);
    if (typeof drops === "string") return drops;
    const items = group.items.flatMap((item): Carried[] => {
      if (item.kind === "drop") return [];
      const counted =
        item.kind === "entry"
          ? countedPart(seen, group.section, item)
          : item.kind === "kept" && isTakenBack(seen, group.section)
            ? null
            : item;
      if (counted === null) leftOut++;
      return counted === null ? [] : [counted];
    });
    const all = [...drops, ...items];
    if (all.some(({ kind }) => kind !== "comment") || needsHead(seen, group)) groups.push({ ...group, items: all });
  }
  return { groups, idleDrops: idleDrops(seen), leftOut };
}

/** Why kept text cannot stay in its order; null where it can. */
function keptWhy({ over, layer }: Seen, { section, items }: Group): string | null {
  const touches = items.some(({ kind }) => kind === "kept" || (kind === "drop" && section.startsWith("verbatim/")));
  const other = touches && over.find((script) => script.kept.some(({ dialect }) => `verbatim/${dialect}` === section));
  if (!other) return null;
  return `“${other.name}” lies over “${layer.name}” and keeps lines of the same board: written out, those of “${layer.name}” would come behind them.`;
}

/** Whether a file above the layer takes the whole section back. */
function isTakenBack({ over, own }: Seen, section: string): boolean {
  return [...over, own].some(({ drops }) => drops.some((drop) => drop.all && drop.section === section));
}

/** What counts of an entry: all of it, some of its fields, or nothing. */
function countedPart(seen: Seen, section: string, item: Carried): Carried | null {
  const { layer, over, own, catalogue } = seen;
  const entry = layer.entries.find(({ line }) => line === item.line)!;
  const chain = chainOf({ scripts: [layer, ...over, own] }, { section, name: entry.name, field: null }, catalogue);
  const step = chain.find(
    ({ source, does }) => does === "says" && source.file === layer.file && source.line === entry.line,
  )!;
  if (step.counts === "whole") return item;
  if (step.counts === "no") return null;
  return partOf(entry, item, step.fields);
}

/** An entry of fields with some of them only. */
function partOf(entry: Entry, item: Carried, fields: readonly string[]): Carried {
  if (entry.value?.kind !== "fields") return item;
  const { value } = entry;
  const offset = item.text.length - item.rest.length;
  const end = value.fields.at(-1)!.value.end;
  const parts = value.fields.flatMap(({ name, nameAt }, i) =>
    fields.includes(name) ? [item.text.slice(nameAt.start, value.fields[i + 1]?.nameAt.start ?? end).trim()] : [],
  );
  const rest = parts.join("  ") + item.text.slice(end);
  return { ...item, rest, text: item.text.slice(0, offset) + rest };
}

/** The drops by which the craft's own file takes back what the layer's drops took back. */
function dropsFor(seen: Seen, section: string): Carried[] | string {
  const { layer, under, over, own } = seen;
  const drops = layer.drops.filter((drop) => drop.section === section);
  if (drops.length === 0) return [];
  const all = drops.find((drop) => drop.all);
  if (section.startsWith("verbatim/")) {
    const isThere = liveNames(seen, under, section).length > 0;
    return all && isThere && !isTakenBack(seen, section) ? [dropLine(layer, all.line, "all")] : [];
  }
  const there = liveNames(seen, under, section);
  const dropped = there.filter((name) => all || drops.some(({ names }) => names.some(({ text }) => text === name)));
  const needed: string[] = [];
  for (const name of dropped) {
    const said = (scripts: readonly Script[]) => sayingLines(scripts, section, name);
    const isDropped = (script: Script) =>
      script.drops.some(
        (drop) => drop.section === section && (drop.all || drop.names.some(({ text }) => text === name)),
      );
    if (over.some(isDropped) || isDropped(own)) continue;
    const above = said(over);
    if ([...above, ...said([layer]), ...said([own])].some((entry) => replacesWhole(seen, entry))) continue;
    if (above.length > 0)
      return `“${layer.name}” drops ${name} of what lies under it, and a layer over it says a part of it again, on line ${above[0]!.line + 1}: a “drop” on the craft would take that back too.`;
    needed.push(name);
  }
  if (needed.length === 0) return [];
  const isAlone = all && needed.length === there.length && over.every((script) => !hasSection(script, section));
  const line = (all ?? drops[0]!).line;
  return [dropLine(layer, line, isAlone ? "all" : needed.join(" "))];
}

function hasSection({ sections }: Script, name: string): boolean {
  return sections.some(({ section }) => section === name);
}

function dropLine(script: Script, line: number, words: string): Carried {
  const { text, comment } = script.tree.lines[line]!;
  const indent = /^[ \t]*/.exec(text)![0];
  const behind = comment ? `  ${text.slice(comment.start)}` : "";
  const above = script.noteOf(line).lines.map((each) => script.tree.lines[each]!.text);
  return { name: words, kind: "drop", above, text: `${indent}drop ${words}${behind}`, rest: "", hasGap: false, line };
}

function sayingLines(scripts: readonly Script[], section: string, name: string): Entry[] {
  return scripts.flatMap(({ entries }) => entries.filter((each) => each.section === section && each.name === name));
}

/** Whether a line leaves nothing of what was said before. */
function replacesWhole({ catalogue }: Seen, entry: Entry): boolean {
  return fieldsOf(entry) === null || isJoint(entry, { ...entry, field: null }, catalogue);
}

/** The names of a section that files say and do not take back; of kept text an empty one. */
function liveNames({ catalogue }: Seen, scripts: readonly Script[], section: string): string[] {
  if (section.startsWith("verbatim/"))
    return chainOf({ scripts }, { section, name: "", field: null }, catalogue).some(isLive) ? [""] : [];
  const names = new Set(
    scripts.flatMap(({ entries }) => entries.filter((each) => each.section === section)).map(({ name }) => name),
  );
  return [...names].filter((name) => chainOf({ scripts }, { section, name, field: null }, catalogue).some(isLive));
}

const isLive = ({ does, counts }: ReturnType<typeof chainOf>[number]): boolean => does === "says" && counts !== "no";

/** Words of the file's own drops that took back something, and have nothing to take back without the layer. */
function idleDrops(seen: Seen): Map<number, Set<string>> {
  const { under, over, own, layer } = seen;
  const found = new Map<number, Set<string>>();
  for (const { line, section, kind, names } of itemsOf(own)) {
    if (kind !== "drop") continue;
    const before = liveNames(seen, [...under, layer, ...over], section);
    const without = liveNames(seen, [...under, ...over], section);
    const idle = (names ?? ["all"]).filter((name) =>
      name === "all" && names === null
        ? before.length > 0 && without.length === 0
        : before.includes(name) && !without.includes(name),
    );
    if (idle.length > 0) found.set(line, new Set(idle));
  }
  return found;
}

/** Whether the section would be gone without a line that names it. */
function needsHead({ under, over, own, layer }: Seen, { section }: Group): boolean {
  const heads = ({ sections }: Script) =>
    sections.some((each) => each.section === section && each.known && !each.misplaced && !each.cleared);
  return heads(layer) && ![...under, ...over, own].some(heads);
}
