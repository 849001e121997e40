/** Writes lines of a craft into a layer that may say the same names already: then its lines are replaced, and their notes stay. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Entry, Script } from "../../model/script.ts";
import { isJoint } from "./chain.ts";
import type { Draft } from "./draft.ts";
import type { Carried, Group } from "./groups.ts";
import { fieldsOf, keyOf } from "./items.ts";
import { putGroups } from "./put-lines.ts";

/** Writes groups into a layer; a sentence where it cannot be. `entryAt` gives the entry of a line of the craft. */
export function putIntoLayer(
  draft: Draft,
  groups: readonly Group[],
  entryAt: (line: number) => Entry | undefined,
  catalogue: Catalogue,
): string | null {
  const { script } = draft;
  const left: Group[] = [];
  for (const group of groups) {
    const why = whyNotDropped(script, group);
    if (why !== null) return why;
    const rest = new Set(group.items);
    const byName = new Map<string, Carried[]>();
    for (const item of group.items) {
      if (item.kind === "entry") byName.set(item.name, [...(byName.get(item.name) ?? []), item]);
    }
    for (const [name, items] of byName) {
      const there = script.entries.filter((each) => keyOf(each) === keyOf({ section: group.section, name }));
      if (there.length === 0) continue;
      const faulty = there.find(({ value }) => value === null);
      if (faulty)
        return `Line ${faulty.line + 1} of “${script.name}” has a fault, and it says ${name} too: mend it first.`;
      const startsAfresh = group.items.some((each) => each.kind === "drop" && dropsName(each, name));
      const joint = isJoint(there[0]!, { ...there[0]!, field: null }, catalogue);
      const entries = items.map((item) => entryAt(item.line)!);
      if (joint || startsAfresh || !isOfFields(there) || !isOfFields(entries)) replaceLines(draft, there, items);
      else setFields(draft, there, items, entries);
      for (const item of items) rest.delete(item);
    }
    if (rest.size > 0) left.push({ ...group, items: group.items.filter((item) => rest.has(item)) });
    else if (group.note.length > 0) left.push({ ...group, items: [] });
  }
  putGroups(draft, left, "behind");
  return null;
}

const isOfFields = (entries: readonly Entry[]): boolean => entries.every(({ value }) => value?.kind === "fields");

function dropsName({ name }: Carried, of: string): boolean {
  return name === "all" || name.split(" ").includes(of);
}

/** A `drop` acts on earlier files alone, so it cannot take back what its own file says. */
function whyNotDropped(script: Script, { section, items }: Group): string | null {
  const said = new Set(items.filter(({ kind }) => kind === "entry").map(({ name }) => name));
  for (const item of items.filter(({ kind }) => kind === "drop")) {
    const own = script.entries.find(
      (each) => each.section === section && dropsName(item, each.name) && !said.has(each.name),
    );
    if (own)
      return `“${script.name}” says ${own.name} itself, on line ${own.line + 1}, and a “drop” in it would not take that back: take that line out there instead.`;
    if (item.name === "all" && script.kept.some(({ dialect }) => `verbatim/${dialect}` === section))
      return `“${script.name}” keeps board text itself, and a “drop all” in it would not take that back.`;
  }
  return null;
}

/** Puts lines in place of those that are there. Comments of these stay, those at the end of a line above it. */
function replaceLines(draft: Draft, there: readonly Entry[], items: readonly Carried[]): void {
  const { lines } = draft.script.tree;
  const [first, ...others] = there;
  for (const { line } of others) {
    const { text, comment } = lines[line]!;
    if (comment) draft.rewrite(line, indentOf(text) + text.slice(comment.start));
    else draft.remove([line]);
  }
  const [one, ...more] = items;
  writeOver(draft, first!, one!);
  const indent = indentOf(lines[first!.line]!.text);
  const { start } = columnsOfValue(draft, first!.line);
  const head = lines[first!.line]!.text.slice(0, start);
  draft.insertAfter(
    first!.line,
    more.flatMap(({ above, rest }) => [...above.map((comment) => indent + comment.trimStart()), head + rest]),
  );
}

/** Puts the value of a line in place of another's, which keeps its columns and the comment at its end. */
function writeOver(draft: Draft, { line }: Entry, { above, rest }: Carried): void {
  const { text } = draft.script.tree.lines[line]!;
  const { start, end } = columnsOfValue(draft, line);
  const { value, comment } = partsOf(rest);
  draft.rewrite(line, text.slice(0, start) + value + text.slice(end));
  noteAbove(draft, line, comment === "" ? above : [...above, comment]);
}

/** Writes comments directly above a line, but those that stand there. */
function noteAbove(draft: Draft, line: number, comments: readonly string[]): void {
  const { script } = draft;
  const { text, comment } = script.tree.lines[line]!;
  const there = script.noteOf(line).lines.map((each) => script.tree.lines[each]!.text.trim());
  if (comment) there.push(text.slice(comment.start).trim());
  const fresh = comments.map((each) => each.trim()).filter((each) => !there.includes(each));
  draft.insertAfter(
    line - 1,
    fresh.map((each) => indentOf(text) + each),
  );
}

/** What follows a name, parted into its value and the comment at its end. */
function partsOf(rest: string): { readonly value: string; readonly comment: string } {
  let quoted = false;
  for (let i = 0; i < rest.length; i++) {
    if (rest[i] === "\\" && quoted) i++;
    else if (rest[i] === '"') quoted = !quoted;
    else if (rest[i] === "#" && !quoted) return { value: rest.slice(0, i).trimEnd(), comment: rest.slice(i) };
  }
  return { value: rest.trimEnd(), comment: "" };
}

function columnsOfValue({ script }: Draft, line: number): { readonly start: number; readonly end: number } {
  const { node, text } = script.tree.lines[line]!;
  return node.kind === "entry" ? node.value : { start: text.length, end: text.length };
}

/** Sets fields: each where the layer says it, the others at the end of its last line of that name. */
function setFields(draft: Draft, there: readonly Entry[], items: readonly Carried[], entries: readonly Entry[]): void {
  const last = there.at(-1)!;
  const said = new Map<string, string>();
  items.forEach((item, i) => {
    for (const [name, text] of fieldTexts(entries[i]!, item)) said.set(name, text);
    const { comment } = partsOf(item.rest);
    noteAbove(draft, last.line, comment === "" ? item.above : [...item.above, comment]);
  });
  for (const entry of there) {
    if (entry.value?.kind !== "fields") continue;
    const { fields } = entry.value;
    // From behind, so that the columns of those before stay what they are.
    for (const [i, { name, nameAt }] of [...fields.entries()].reverse()) {
      const isLast = there.findLast((each) => fieldsOf(each)?.includes(name)) === entry;
      const written = isLast ? said.get(name) : undefined;
      if (written === undefined) continue;
      said.delete(name);
      const text = draft.textAt(entry.line);
      const end = i + 1 < fields.length ? fields[i + 1]!.nameAt.start : fields[i]!.value.end;
      const before = text.slice(nameAt.end, end);
      const lead = /^\s*/.exec(before)![0].length;
      draft.rewrite(
        entry.line,
        text.slice(0, nameAt.end + lead) + written + text.slice(nameAt.end + before.trimEnd().length),
      );
    }
  }
  if (said.size === 0) return;
  const { text } = draft.script.tree.lines[last.line]!;
  const added = [...said].map(([name, written]) => `  ${name} ${written}`).join("");
  const behind = text.length - columnsOfValue(draft, last.line).end;
  const now = draft.textAt(last.line);
  draft.rewrite(last.line, now.slice(0, now.length - behind) + added + now.slice(now.length - behind));
}

/** The fields of an entry, each with its value as it is written. */
function fieldTexts({ value }: Entry, { text, rest }: Carried): (readonly [name: string, text: string])[] {
  if (value?.kind !== "fields") return [];
  const end = text.length - rest.length + partsOf(rest).value.length;
  return value.fields.map(({ name, nameAt }, i) => {
    const next = value.fields[i + 1]?.nameAt.start ?? end;
    return [name, text.slice(nameAt.end, next).trim()];
  });
}

function indentOf(text: string): string {
  return /^[ \t]*/.exec(text)![0];
}
