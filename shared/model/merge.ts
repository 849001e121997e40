/** Files laid over one another: later wins, and every value knows its line. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Condition } from "../syntax/condition.ts";
import { printCondition, printValue } from "../syntax/print-value.ts";
import type { Field, Value } from "../syntax/value.ts";
import type { Control, Craft, DroppedNothing, Follow, Mode, Placed, Setting, Source } from "./craft.ts";
import type { Drop, Entry, Script } from "./script.ts";
import type { Part, Plan } from "./uses.ts";

type Kept = Craft["kept"][number];

/** What has been said so far, by all files up to the present one. */
interface Said {
  readonly settings: Map<string, Map<string, Setting>>;
  readonly modes: Map<string, Mode>;
  readonly outputs: Map<string, Mode>;
  readonly controls: Map<string, Control>;
  readonly osd: Map<string, Placed>;
  readonly osdSecond: Map<string, Placed>;
  readonly adjust: Map<string, Follow>;
  readonly sections: Map<string, Source>;
  kept: Kept[];
  readonly droppedNothing: DroppedNothing[];
}

/** The effective craft of a plan. */
export function mergeCraft(craft: Script, plan: Plan, catalogue: Catalogue): Craft {
  const said: Said = {
    settings: new Map(),
    modes: new Map(),
    outputs: new Map(),
    controls: new Map(),
    osd: new Map(),
    osdSecond: new Map(),
    adjust: new Map(),
    sections: new Map(),
    kept: [],
    droppedNothing: [],
  };
  const via = new Map<string, number>();
  for (const part of plan.parts) {
    if (!via.has(part.script.file)) via.set(part.script.file, part.viaLine);
    layOver(said, part, catalogue);
  }
  return {
    script: craft,
    file: craft.file,
    name: craft.name,
    handset: plan.handset,
    scripts: plan.parts.map((part) => part.script),
    ...said,
    answersFor: (source) =>
      source.file === craft.file ? source : { file: craft.file, line: via.get(source.file) ?? craft.tree.header ?? 0 },
  };
}

function layOver(said: Said, { script }: Part, catalogue: Catalogue): void {
  for (const section of script.sections) {
    if (section.known && !section.misplaced)
      said.sections.set(section.section, { file: script.file, line: section.line });
  }
  for (const drop of script.drops) takeBack(said, drop, script);
  for (const entry of script.entries) layEntry(said, entry, script, catalogue);
  for (const { dialect, line, text } of script.kept)
    said.kept.push({ dialect, text, source: { file: script.file, line } });
}

function layEntry(said: Said, entry: Entry, script: Script, catalogue: Catalogue): void {
  const { name, value, section } = entry;
  const source = { file: script.file, line: entry.line };
  const text = value ? printValue(value) : written(entry, script);
  switch (entry.kind) {
    case "mode":
    case "output": {
      const map = entry.kind === "mode" ? said.modes : said.outputs;
      map.set(name, joinMode(map.get(name), name, value, text, source));
      return;
    }
    case "control":
      said.controls.set(name, {
        name,
        value: value?.kind === "control" ? value : null,
        text,
        source,
        fromHandset: script.kind === "handset",
      });
      return;
    case "element":
      (section === "osd-second" ? said.osdSecond : said.osd).set(name, { name, value, text, source });
      return;
    case "follows":
      said.adjust.set(name, { name, value, text, source });
      return;
    case "setting": {
      const table = said.settings.get(section) ?? new Map<string, Setting>();
      said.settings.set(section, table);
      const base = section.startsWith("pack/") ? "pack" : section;
      const repeatable = catalogue.setting(base, name)?.repeatable === true;
      table.set(
        name,
        repeatable
          ? appendItem(table.get(name), entry, text, source)
          : joinSetting(table.get(name), entry, text, source),
      );
    }
  }
}

/** Lines of one mode join as "or" within a file, and replace those of earlier files together. */
function joinMode(before: Mode | undefined, name: string, value: Value | null, text: string, source: Source): Mode {
  const condition = value?.kind === "condition" ? value.condition : null;
  const earlier = before?.lines[0]?.source.file === source.file ? before.lines : [];
  const lines = [...earlier, { source, condition }];
  const joined = joinConditions(lines.map((line) => line.condition));
  return { name, condition: joined, text: joined ? printCondition(joined) : text, lines };
}

function joinConditions(conditions: readonly (Condition | null)[]): Condition | null {
  const parts: Condition[] = [];
  for (const condition of conditions) {
    if (!condition) return null;
    parts.push(condition);
  }
  return parts.length === 1 ? parts[0]! : { kind: "or", parts, start: 0, end: 0 };
}

/** Fields merge one by one over those said before, in the same file or an earlier one; all else is replaced. */
function joinSetting(before: Setting | undefined, entry: Entry, text: string, source: Source): Setting {
  const { section, name, value } = entry;
  if (value?.kind !== "fields") return { section, name, value, text, source, fieldSources: new Map(), items: null };
  const fields = new Map<string, Field>();
  const sources = new Map<string, Source>();
  if (before?.value?.kind === "fields") {
    for (const field of before.value.fields) {
      fields.set(field.name, field);
      sources.set(field.name, before.fieldSources.get(field.name) ?? before.source);
    }
  }
  for (const field of value.fields) {
    fields.set(field.name, field);
    sources.set(field.name, source);
  }
  const merged: Value = { ...value, fields: [...fields.values()] };
  return { section, name, value: merged, text: printValue(merged), source, fieldSources: sources, items: null };
}

/** Items of one file form a list; a later file's replace it whole. */
function appendItem(before: Setting | undefined, entry: Entry, text: string, source: Source): Setting {
  const earlier = before?.source.file === source.file ? (before.items ?? []) : [];
  const items = [...earlier, { value: entry.value, source }];
  const texts = earlier.length > 0 ? [before!.text, text] : [text];
  return {
    section: entry.section,
    name: entry.name,
    value: entry.value,
    text: texts.join("; "),
    source,
    fieldSources: new Map(),
    items,
  };
}

function takeBack(said: Said, drop: Drop, script: Script): void {
  const source = { file: script.file, line: drop.line };
  const { node } = script.tree.lines[drop.line]!;
  const nothing = (name: string, at: { start: number; end: number }) =>
    said.droppedNothing.push({ section: drop.section, name, source, start: at.start, end: at.end });
  if (drop.all) {
    const at = node.kind === "drop" ? (node.all ?? node.word) : { start: 0, end: 0 };
    if (!takeAll(said, drop.section)) nothing("all", at);
    return;
  }
  for (const word of drop.names) {
    const taken = mapsOf(said, drop.section).map((map) => map.delete(word.text));
    if (!taken.includes(true)) nothing(word.text, word);
  }
}

function takeAll(said: Said, section: string): boolean {
  const before = said.kept.length;
  if (section.startsWith("verbatim/")) {
    const dialect = section.slice("verbatim/".length);
    said.kept = said.kept.filter((line) => line.dialect !== dialect);
    return said.kept.length < before;
  }
  const maps = mapsOf(said, section).filter((map) => map.size > 0);
  for (const map of maps) map.clear();
  return maps.length > 0;
}

function mapsOf(said: Said, section: string): Map<string, unknown>[] {
  const settings = said.settings.get(section);
  const own = {
    modes: said.modes,
    outputs: said.outputs,
    controls: said.controls,
    adjust: said.adjust,
    osd: said.osd,
    "osd-second": said.osdSecond,
  }[section];
  return [settings, own].filter((map) => map !== undefined);
}

/** What stands on the line of an entry that could not be read. */
function written(entry: Entry, script: Script): string {
  const { node, text } = script.tree.lines[entry.line]!;
  return node.kind === "entry" ? text.slice(node.value.start, node.value.end) : "";
}
