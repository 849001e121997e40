/** Which lines of a script are meant by a selection, and which must come along with them. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { NOT_AS_MEANT } from "../../model/line-faults.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { Range } from "../../syntax/span.ts";
import { isJoint } from "./chain.ts";
import { fieldsOf, type Item, itemsOf, keyOf, sectionsOf } from "./items.ts";

/** Lines of a script that are taken together. */
export interface Taken {
  /** In order of line. */
  readonly items: readonly Item[];
  /** By the line of a `drop`: those of its words that are taken; all of them where the line is not here. */
  readonly words: ReadonlyMap<number, ReadonlySet<string>>;
  /** The lines of the names of sections that are taken whole. */
  readonly whole: ReadonlySet<number>;
  /** The lines that had to come along with those that were chosen. */
  readonly along: readonly number[];
}

/** What a selection takes, with all that the effective craft would change without; or why it cannot be taken, in a sentence. */
export function takenIn(script: Script, range: Range, catalogue: Catalogue): Taken | string {
  const lines = linesOf(range, script);
  const items = itemsOf(script);
  const chosen = new Set(items.filter(({ line }) => lines.has(line)).map(({ line }) => line));
  const headed = new Set<number>();
  for (const section of sectionsOf(script)) {
    if (!lines.has(section.line) || section.entries.some((line) => lines.has(line))) continue;
    headed.add(section.line);
    for (const line of section.entries) chosen.add(line);
  }
  const faulty = faultIn(script, new Set([...chosen, ...headed, ...strays(script, lines)]), items);
  if (faulty !== null) return faulty;
  if (chosen.size + headed.size === 0)
    return "No entry is selected: put the cursor on one, or select lines of sections. The header and “use” lines stay where they are.";
  const { all, words } = closure(items, chosen, catalogue);
  const late = faultIn(script, all, items);
  if (late !== null) return late;
  const taken = items.filter(({ line }) => all.has(line));
  const isTaken = (line: number) => all.has(line) && !words.has(line);
  const whole = new Set(
    sectionsOf(script)
      .filter((section) => headed.has(section.line) || (section.entries.length > 0 && section.entries.every(isTaken)))
      .map(({ line }) => line),
  );
  const along = taken.filter(({ line }) => !chosen.has(line)).map(({ line }) => line);
  return { items: taken, words, whole, along };
}

/** The lines of a range, which may end far below the text; a last line of which nothing is in it does not count. */
function linesOf({ start, end }: Range, { tree }: Script): ReadonlySet<number> {
  const touched = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
  const last = Math.min(touched, tree.lines.length - 1);
  return new Set(Array.from({ length: Math.max(0, last - start.line + 1) }, (_, i) => start.line + i));
}

function strays({ tree }: Script, lines: ReadonlySet<number>): number[] {
  return [...lines].filter((line) => {
    const kind = tree.lines[line]?.node.kind;
    return kind === "stray" || kind === "conflict" || kind === "entry" || kind === "drop" || kind === "kept";
  });
}

function faultIn({ issues, tree }: Script, lines: ReadonlySet<number>, items: readonly Item[]): string | null {
  const known = new Set(items.map(({ line }) => line));
  const faulty = new Set(issues.filter(({ code }) => NOT_AS_MEANT.has(code)).map(({ span }) => span.line));
  for (const line of [...lines].sort((a, b) => a - b)) {
    const kind = tree.lines[line]?.node.kind;
    if (faulty.has(line) || (kind !== "section" && !known.has(line)))
      return `Line ${line + 1} has a fault, and in a layer it would be one on every craft that uses it: mend it first.`;
  }
  return null;
}

/** The lines with all that must come along, until nothing more does; and of a `drop` the words, where not all do. */
function closure(items: readonly Item[], chosen: ReadonlySet<number>, catalogue: Catalogue) {
  const all = new Set(chosen);
  const words = new Map<number, Set<string>>();
  const takeWord = (item: Item, name: string) => {
    if (all.has(item.line) && !words.has(item.line)) return;
    const taken = (words.get(item.line) ?? new Set<string>()).add(name);
    all.add(item.line);
    if (item.names!.every((each) => taken.has(each))) words.delete(item.line);
    else words.set(item.line, taken);
  };
  const sections = groupedBy(items, ({ section }) => [section]);
  /** By name, the lines that say it, and those that take it back. */
  const saying = groupedBy(items, ({ entry }) => (entry ? [keyOf(entry)] : []));
  const dropping = groupedBy(items, ({ section, names }) => (names ?? []).map((name) => keyOf({ section, name })));
  for (let before = ""; before !== stateOf(all, words); ) {
    before = stateOf(all, words);
    for (const own of sections.values()) {
      const taken = own.filter(({ line }) => all.has(line));
      // Kept lines join in the order of the files, and the layer comes first.
      const lastKept = taken.findLast(({ kind }) => kind === "kept")?.line ?? -1;
      for (const { line } of own) if (line < lastKept) all.add(line);
      for (const { entry } of taken) {
        if (!entry) continue;
        const key = keyOf(entry);
        for (const each of saying.get(key)!) if (mustGoWith(entry, each.entry!, catalogue)) all.add(each.line);
        for (const each of dropping.get(key) ?? []) takeWord(each, entry.name);
      }
      // A `drop all` left behind would take back what is moved, and one that is moved would not reach what stays.
      const hasDropAll = own.some(({ kind, names }) => kind === "drop" && names === null);
      if (hasDropAll && taken.some(({ kind, names }) => kind !== "drop" || names === null))
        for (const { line } of own) all.add(line);
    }
  }
  return { all, words };
}

function groupedBy(items: readonly Item[], keysOf: (item: Item) => readonly string[]): ReadonlyMap<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items)
    for (const key of keysOf(item)) {
      const group = groups.get(key);
      if (group) group.push(item);
      else groups.set(key, [item]);
    }
  return groups;
}

function stateOf(all: ReadonlySet<number>, words: ReadonlyMap<number, ReadonlySet<string>>): string {
  return `${all.size} ${[...words.values()].reduce((sum, set) => sum + set.size, 0)} ${words.size}`;
}

/** Whether a line must stand in the same file as another one of its name. */
function mustGoWith(entry: Entry, other: Entry, catalogue: Catalogue): boolean {
  if (keyOf(entry) !== keyOf(other)) return false;
  const [fields, others] = [fieldsOf(entry), fieldsOf(other)];
  if (!fields || !others || isJoint(entry, { ...entry, field: null }, catalogue)) return true;
  return fields.some((field) => others.includes(field));
}
