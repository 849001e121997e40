/**
 * What the lines of a board's text say together: halves are joined, and of what is said again the later line counts, but
 * where the board adds lines up.
 */

import { textOfHeld } from "../codes/codes.ts";
import type { Held, Left, Meaning } from "../dialect.ts";
import { addsUp, type EntryReader, fieldsOf, type Outcome, outcomeOf, type Said } from "./entries.ts";
import { type LineParse, type LineReader, type Scope, sentence } from "./line-reader.ts";

/** A line with where it stands. */
export interface PlacedLine {
  readonly line: number;
  readonly text: string;
  readonly parse: LineParse;
  /** Below which heading it stands. */
  readonly scope: Scope;
  /** The line of that heading; -1 above all. Equal headings are different places here. */
  readonly headingLine: number;
}

/** One entry as one line, or several that mean it together, say it. */
export interface Saying {
  /** The lines that say it, in order. */
  readonly lines: readonly number[];
  readonly meaning: Meaning;
  readonly outcome: Outcome;
  /** Numbered lines: which number of what; null for others. */
  readonly item: string | null;
  readonly number: number | null;
  /** Lines that begin so add up. */
  readonly repeats: boolean;
  /** Why it does not count at all; null where it does. */
  dead: string | null;
  /** The fields of which a later line says another value, with why. */
  readonly lost: Map<string, string>;
}

/** What a line takes part in, with why some of it does not count although the line fits. */
export interface Takings {
  readonly sayings: Saying[];
  readonly troubles: string[];
}

export interface Sayings {
  readonly placed: readonly PlacedLine[];
  readonly all: readonly Saying[];
  /** By line; only lines that fit have any. */
  readonly takings: ReadonlyMap<number, Takings>;
}

/** Reads lines one after another, and settles what of them counts. */
export function sayingsOf(lines: readonly string[], reader: LineReader, entries: EntryReader): Sayings {
  const placed: PlacedLine[] = [];
  const all: Saying[] = [];
  const takings = new Map<number, Takings>();
  const groups = new Map<string, Group>();
  let scope = reader.top;
  let headingLine = -1;
  lines.forEach((text, line) => {
    const parse = reader.read(text, scope);
    placed.push({ line, text, parse, scope, headingLine });
    if (parse.kind === "heading") {
      scope = parse.below;
      headingLine = line;
    }
    if (parse.kind !== "fits") return;
    const taken: Takings = { sayings: [], troubles: [] };
    takings.set(line, taken);
    const beyond = parse.says.find(({ outcome }) => outcome.kind === "beyond");
    if (beyond?.outcome.kind === "beyond") taken.troubles.push(sentence(beyond.outcome.why));
    // What a line says stands or falls as a whole: beyond a limit nothing is read of it.
    for (const { meaning, outcome } of beyond ? [] : parse.says) {
      const saying = makeSaying([line], meaning, outcome, numberOfLine(parse, meaning, scope), reader.repeats(text));
      taken.sayings.push(saying);
      all.push(saying);
    }
    for (const meaning of beyond ? [] : parse.partOf) addToGroup(groups, meaning, parse, line, headingLine, takings);
  });
  for (const group of groups.values()) closeGroup(group, placed, takings, all, entries, reader);
  settle(all);
  return { placed, all, takings };
}

function makeSaying(
  lines: readonly number[],
  meaning: Meaning,
  outcome: Outcome,
  numbered: { readonly item: string; readonly number: number } | null,
  repeats: boolean,
): Saying {
  const { item, number } = numbered ?? { item: null, number: null };
  return { lines, meaning, outcome, item, number, repeats, dead: null, lost: new Map() };
}

/** The number of a line, where the right side does not use it itself; lines with the same text before it share it. */
function numberOfLine(parse: LineParse & { kind: "fits" }, meaning: Meaning, scope: Scope) {
  const slot = parse.slots.get("#");
  if (!slot || usesNumber(meaning)) return null;
  const { parts } = parse.left.pattern;
  const before = parts
    .slice(
      0,
      parts.findIndex((part) => part.kind === "slot" && part.name === "#"),
    )
    .map((part) => (part.kind === "literal" ? part.text : (parse.slots.get(part.name)?.text ?? "")))
    .join("");
  const place = parse.left.under.kind === "anywhere" ? "" : scope.heading;
  const number = Number(textOfHeld(slot.held));
  return { item: `${place}\n${before}\n${number}`, number };
}

/** Whether the right side names by the number: then the name tells entries apart. */
function usesNumber({ right, title }: Meaning): boolean {
  return [...right.name, ...(title ?? [])].some((part) => typeof part !== "string" && part.slot === "#");
}

// --- Several lines that mean one entry ---------------------------------------------

interface Half {
  readonly line: number;
  readonly parse: LineParse & { kind: "fits" };
}

interface Group {
  readonly meaning: Meaning;
  readonly halves: Map<Left, Half>;
}

const tied = new WeakMap<Meaning, readonly string[]>();

/** The slots that stand in all left sides of a meaning. */
function tiesOf(meaning: Meaning): readonly string[] {
  let names = tied.get(meaning);
  if (!names) {
    const [first, ...others] = meaning.lefts;
    names = [...(first?.pattern.slots.keys() ?? [])].filter((name) =>
      others.every(({ pattern }) => pattern.slots.has(name)),
    );
    tied.set(meaning, names);
  }
  return names;
}

function addToGroup(
  groups: Map<string, Group>,
  meaning: Meaning,
  parse: LineParse & { kind: "fits" },
  line: number,
  headingLine: number,
  takings: ReadonlyMap<number, Takings>,
): void {
  const ties = tiesOf(meaning).map((name) => textOfHeld(parse.helds.get(name) ?? { kind: "unset" }));
  const key = `${meaning.line} ${headingLine} ${JSON.stringify(ties)}`;
  const group = groups.get(key) ?? { meaning, halves: new Map() };
  groups.set(key, group);
  const before = group.halves.get(parse.left);
  if (before) takings.get(before.line)!.troubles.push(saidAgain(line));
  group.halves.set(parse.left, { line, parse });
}

function closeGroup(
  { meaning, halves }: Group,
  placed: readonly PlacedLine[],
  takings: ReadonlyMap<number, Takings>,
  all: Saying[],
  entries: EntryReader,
  reader: LineReader,
): void {
  const present = [...halves.values()].sort((a, b) => a.line - b.line);
  const missing = meaning.lefts.filter((left) => !halves.has(left));
  const trouble = (why: string) => {
    for (const { line } of present) takings.get(line)!.troubles.push(why);
  };
  if (missing.length > 0) {
    const shown = missing.map(({ pattern }) => `“${pattern.key}”`).join(" and ");
    trouble(`It is half of an entry: a line as ${shown} is missing.`);
    return;
  }
  const helds = new Map<string, Held>();
  for (const { parse } of present) for (const [name, held] of parse.helds) helds.set(name, held);
  const [first] = present;
  const numbered = numberOfLine(first!.parse, meaning, placed[first!.line]!.scope);
  const outcome = outcomeOf(entries, meaning, helds, numbered === null);
  if (outcome.kind === "unfit" || outcome.kind === "beyond") {
    trouble(sentence(outcome.why));
    return;
  }
  const lines = present.map(({ line }) => line);
  const saying = makeSaying(lines, meaning, outcome, numbered, reader.repeats(placed[lines[0]!]!.text));
  all.push(saying);
  for (const line of lines) takings.get(line)!.sayings.push(saying);
}

// --- Said again below --------------------------------------------------------------

/** What lines further down say of one number. */
interface Item {
  /** By left side. */
  readonly again: Map<Left, number>;
  readonly names: Map<string, number>;
  /** Said whole, and not by fields. */
  whole: number | null;
  readonly fields: Map<string, number>;
}

/** Marks what a later line says again: by name, by field, or by number. */
function settle(all: readonly Saying[]): void {
  const later = new Map<string, number>();
  const items = new Map<string, Item>();
  const sorted = all
    .filter(({ outcome }) => outcome.kind === "said" || outcome.kind === "nothing")
    .sort((a, b) => b.lines.at(-1)! - a.lines.at(-1)!);
  for (let from = 0; from < sorted.length; ) {
    const line = sorted[from]!.lines.at(-1)!;
    let to = from + 1;
    while (to < sorted.length && sorted[to]!.lines.at(-1) === line) to++;
    // What one line says is no repetition of itself.
    const together = sorted.slice(from, to);
    for (const saying of together) judge(saying, later, items);
    for (const saying of together) if (saying.dead === null) note(saying, line, later, items);
    from = to;
  }
}

function judge(saying: Saying, later: ReadonlyMap<string, number>, items: ReadonlyMap<string, Item>): void {
  const said = saidOf(saying);
  const item = saying.item === null ? undefined : items.get(saying.item);
  const whole = item ? againInItem(item, saying, said) : null;
  if (whole !== null) saying.dead = saidAgain(whole);
  if (!said || saying.dead !== null) return;
  const name = nameOf(said);
  const fields = fieldsOf(said);
  const byName = isAdded(saying, said) ? later.get(`${name} whole`) : later.get(name);
  if (!fields) {
    if (byName !== undefined) saying.dead = saidAgain(byName);
    return;
  }
  const byWhole = later.get(`${name} whole`);
  for (const field of fields) {
    const line =
      byWhole ??
      item?.fields.get(`${name}.${field.name}`) ??
      (isAdded(saying, said) ? undefined : later.get(`${name}.${field.name}`));
    if (line !== undefined) saying.lost.set(field.name, saidAgain(line, `${said.name} ${field.name}`));
  }
  const [first] = saying.lost.values();
  if (first !== undefined && saying.lost.size === fields.length) saying.dead = first;
}

/** The line that sets this number to something else; null where none does. */
function againInItem(item: Item, { meaning }: Saying, said: Said | null): number | null {
  const again = item.again.get(meaning.lefts[0]!);
  if (again !== undefined) return again;
  if (item.whole !== null) return item.whole;
  const name = said && fieldsOf(said) ? nameOf(said) : null;
  for (const [other, line] of item.names) if (other !== name) return line;
  return null;
}

function note(saying: Saying, line: number, later: Map<string, number>, items: Map<string, Item>): void {
  const said = saidOf(saying);
  const name = said ? nameOf(said) : "";
  const fields = said ? fieldsOf(said) : null;
  if (saying.item !== null) {
    const item = items.get(saying.item) ?? { again: new Map(), names: new Map(), whole: null, fields: new Map() };
    items.set(saying.item, item);
    putFirst(item.again, saying.meaning.lefts[0]!, line);
    if (!fields) item.whole ??= line;
    else putFirst(item.names, name, line);
    for (const field of fields ?? []) putFirst(item.fields, `${name}.${field.name}`, line);
  }
  if (!said || isAdded(saying, said)) return;
  // A number that is set to nothing, or one of several lines that add up, frees itself, and not the name.
  if (said.body.kind === "unset" && (saying.item !== null || saying.repeats)) return;
  putFirst(later, name, line);
  if (!fields) putFirst(later, `${name} whole`, line);
  for (const field of fields ?? []) putFirst(later, `${name}.${field.name}`, line);
}

/** Of several later lines the last one counts, which comes first here. */
function putFirst<K>(map: Map<K, number>, key: K, line: number): void {
  if (!map.has(key)) map.set(key, line);
}

/** What it says; null where it says that nothing is set, whatever the name. */
export function saidOf({ outcome }: Saying): Said | null {
  return outcome.kind === "said" ? outcome.said : null;
}

/** Section and name; a figure by the setting that is worked out of it. */
export function nameOf({ section, name, body }: Said): string {
  if (body.kind !== "figure") return `${section} ${name}`;
  return `${section} ${body.of === "divider-ratio" ? "divider-top" : "shunt"}`;
}

/** Whether it stands beside what other lines say of the name. */
export function isAdded(saying: Saying, said: Said): boolean {
  return (saying.item !== null || saying.repeats) && addsUp(said);
}

function saidAgain(line: number, what?: string): string {
  return `Line ${line + 1} says ${what ?? "it"} again, and the later line counts.`;
}
