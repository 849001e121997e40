/**
 * What the lines of a board's text say together: halves are joined, and of what is said again the later line counts, but
 * where the board adds lines up.
 */

import type { SectionSpec } from "../../catalogue/specs.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { textOfHeld } from "../codes/codes.ts";
import type { Held, Left, Meaning } from "../dialect.ts";
import { addsUp, type EntryReader, fieldsOf, type Outcome, outcomeOf, type Said } from "./entries.ts";
import type { Half, LineParse, LineReader, Scope } from "./line-reader.ts";
import { sentence } from "./slots.ts";

type Fit = LineParse & { readonly kind: "fits" };

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
  /** The fields of which a later line says another value, with why; null where there are none. */
  lost: Map<string, string> | null;
  /** The lines of the script that come of it; null where there are none. */
  entries: readonly JoinedEntry[] | null;
}

/** A line of the script that is made. */
export interface JoinedEntry {
  /** As resolved. */
  readonly section: string;
  readonly spec: SectionSpec;
  readonly title: string | null;
  readonly name: string;
  /** What follows the name, in canonical spelling. */
  readonly rest: string;
  /** The lines of the board's text that say it, in order. */
  readonly lines: readonly number[];
  /** Whether its lines are numbered: such entries stay in the order of their numbers, in which they are written again. */
  readonly isNumbered: boolean;
}

/** What a line takes part in, with why some of it does not count although the line fits. */
export interface Takings {
  readonly sayings: Saying[];
  trouble: string | null;
}

export interface Sayings {
  readonly placed: readonly PlacedLine[];
  readonly all: readonly Saying[];
  /** By line; only lines that fit have any. */
  readonly takings: { get(line: number): Takings | undefined };
}

/** Reads lines one after another, and settles what of them counts. */
export function sayingsOf(lines: readonly string[], reader: LineReader, entries: EntryReader): Sayings {
  return finish(sayingSteps(lines, reader, entries));
}

/** The same line by line: a text may have tens of thousands. */
export function* sayingSteps(lines: readonly string[], reader: LineReader, entries: EntryReader): Steps<Sayings> {
  const placed: PlacedLine[] = [];
  const all: Saying[] = [];
  const takings: (Takings | null)[] = [];
  const groups = new Map<string, Group>();
  let scope = reader.top;
  let headingLine = -1;
  for (const [line, text] of lines.entries()) {
    yield;
    const parse = reader.read(text, scope);
    placed.push({ line, text, parse, scope, headingLine });
    if (parse.kind === "heading") {
      scope = parse.below;
      headingLine = line;
    }
    if (parse.kind !== "fits") {
      takings.push(null);
      continue;
    }
    const beyond = parse.says.find(({ outcome }) => outcome.kind === "beyond");
    const trouble = beyond?.outcome.kind === "beyond" ? sentence(beyond.outcome.why) : null;
    const repeats = reader.repeats(text);
    const own = [line];
    // What a line says stands or falls as a whole: beyond a limit nothing is read of it.
    const sayings = (beyond ? [] : parse.says).map(({ meaning, outcome }) =>
      makeSaying(own, meaning, outcome, numberFor(parse, meaning), repeats),
    );
    for (const saying of sayings) all.push(saying);
    takings.push({ sayings, trouble });
    for (const meaning of (!beyond && parse.half?.partOf) || [])
      addToGroup(groups, meaning, { line, parse, half: parse.half! }, headingLine, takings);
  }
  yield;
  for (const group of groups.values()) closeGroup(group, placed, takings, all, entries, reader);
  settle(all);
  return { placed, all, takings: { get: (line) => takings[line] ?? undefined } };
}

function makeSaying(
  lines: readonly number[],
  meaning: Meaning,
  outcome: Outcome,
  numbered: { readonly item: string; readonly number: number } | null,
  repeats: boolean,
): Saying {
  const { item, number } = numbered ?? { item: null, number: null };
  return { lines, meaning, outcome, item, number, repeats, dead: null, lost: null, entries: null };
}

/** The number of a line, where the right side does not use it itself; lines with the same text before it share it. */
function numberFor({ numbered }: Fit, meaning: Meaning): Fit["numbered"] {
  return numbered && !usesNumber(meaning) ? numbered : null;
}

/** Whether the right side names by the number: then the name tells entries apart. */
function usesNumber({ right, title }: Meaning): boolean {
  return [...right.name, ...(title ?? [])].some((part) => typeof part !== "string" && part.slot === "#");
}

// --- Several lines that mean one entry ---------------------------------------------

interface PlacedHalf {
  readonly line: number;
  readonly parse: Fit;
  readonly half: Half;
}

interface Group {
  readonly meaning: Meaning;
  readonly halves: Map<Left, PlacedHalf>;
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
  placed: PlacedHalf,
  headingLine: number,
  takings: readonly (Takings | null)[],
): void {
  const { line, parse, half } = placed;
  const ties = tiesOf(meaning).map((name) => textOfHeld(half.helds.get(name) ?? { kind: "unset" }));
  const key = `${meaning.line} ${headingLine} ${JSON.stringify(ties)}`;
  const group = groups.get(key) ?? { meaning, halves: new Map() };
  groups.set(key, group);
  const before = group.halves.get(parse.left);
  if (before) takings[before.line]!.trouble ??= saidAgain(line);
  group.halves.set(parse.left, placed);
}

function closeGroup(
  { meaning, halves }: Group,
  placed: readonly PlacedLine[],
  takings: readonly (Takings | null)[],
  all: Saying[],
  entries: EntryReader,
  reader: LineReader,
): void {
  const present = [...halves.values()].sort((a, b) => a.line - b.line);
  const missing = meaning.lefts.filter((left) => !halves.has(left));
  const trouble = (why: string) => {
    for (const { line } of present) takings[line]!.trouble ??= why;
  };
  if (missing.length > 0) {
    const shown = missing.map(({ pattern }) => `“${pattern.key}”`).join(" and ");
    trouble(`It is half of an entry: a line as ${shown} is missing.`);
    return;
  }
  const helds = {
    get(name: string): Held | undefined {
      for (const { half } of present) {
        const held = half.helds.get(name);
        if (held) return held;
      }
      return undefined;
    },
  };
  const [first] = present;
  const numbered = numberFor(first!.parse, meaning);
  const outcome = outcomeOf(entries, meaning, helds, numbered === null);
  if (outcome.kind === "unfit" || outcome.kind === "beyond") {
    trouble(sentence(outcome.why));
    return;
  }
  const lines = present.map(({ line }) => line);
  const saying = makeSaying(lines, meaning, outcome, numbered, reader.repeats(placed[lines[0]!]!.text));
  all.push(saying);
  for (const line of lines) takings[line]!.sayings.push(saying);
}

// --- Said again below --------------------------------------------------------------

/** What lines further down say of one number. Most numbers are said once, so that nothing is made before it is needed. */
interface Item {
  /** By left side. */
  readonly again: { readonly left: Left; readonly line: number }[];
  /** The first names of which fields are said: two are enough to know that the number was set to something else. */
  readonly names: { readonly name: string; readonly line: number }[];
  /** Said whole, and not by fields. */
  whole: number | null;
  fields: Map<string, number> | null;
}

/** What lines further down say of one name. */
interface Later {
  /** The last line that says it, whole or by fields. */
  readonly any: number;
  whole: number | null;
  fields: Map<string, number> | null;
}

/** Marks what a later line says again: by name, by field, or by number. */
function settle(all: readonly Saying[]): void {
  const later = new Map<string, Later>();
  const items = new Map<string, Item>();
  const sorted = all
    .filter(({ outcome }) => outcome.kind === "said" || outcome.kind === "nothing")
    .sort((a, b) => b.lines.at(-1)! - a.lines.at(-1)!);
  for (let from = 0; from < sorted.length; ) {
    const line = sorted[from]!.lines.at(-1)!;
    let to = from;
    // What one line says is no repetition of itself.
    for (; to < sorted.length && sorted[to]!.lines.at(-1) === line; to++) judge(sorted[to]!, later, items);
    for (; from < to; from++) if (sorted[from]!.dead === null) note(sorted[from]!, line, later, items);
  }
}

function judge(saying: Saying, later: ReadonlyMap<string, Later>, items: ReadonlyMap<string, Item>): void {
  const said = saidOf(saying);
  const item = saying.item === null ? undefined : items.get(saying.item);
  const whole = item ? againInItem(item, saying, said) : null;
  if (whole !== null) saying.dead = saidAgain(whole);
  if (!said || saying.dead !== null) return;
  const below = later.get(said.key);
  const fields = fieldsOf(said);
  const added = isAdded(saying, said);
  const byWhole = below?.whole ?? null;
  if (!fields) {
    const line = added ? byWhole : below?.any;
    if (line !== undefined && line !== null) saying.dead = saidAgain(line);
    return;
  }
  if (!below && !item?.fields) return;
  for (const field of fields) {
    const inNumber = item?.fields?.get(`${said.key}.${field.name}`);
    const line = byWhole ?? inNumber ?? (added ? undefined : below?.fields?.get(field.name));
    if (line === undefined) continue;
    saying.lost ??= new Map();
    saying.lost.set(field.name, saidAgain(line, `${said.name} ${field.name}`));
  }
  if (saying.lost?.size === fields.length) saying.dead = saying.lost.get(fields[0]!.name)!;
}

/** The line that sets this number to something else; null where none does. */
function againInItem(item: Item, { meaning }: Saying, said: Said | null): number | null {
  for (const { left, line } of item.again) if (left === meaning.lefts[0]) return line;
  if (item.whole !== null) return item.whole;
  const name = said && fieldsOf(said) ? said.key : null;
  for (const other of item.names) if (other.name !== name) return other.line;
  return null;
}

function note(saying: Saying, line: number, later: Map<string, Later>, items: Map<string, Item>): void {
  const said = saidOf(saying);
  const name = said ? said.key : "";
  const fields = said ? fieldsOf(said) : null;
  if (saying.item !== null) {
    const item = items.get(saying.item) ?? { again: [], names: [], whole: null, fields: null };
    items.set(saying.item, item);
    const [left] = saying.meaning.lefts;
    if (!item.again.some((each) => each.left === left)) item.again.push({ left: left!, line });
    if (!fields) item.whole ??= line;
    else if (item.names.length < 2 && item.names[0]?.name !== name) item.names.push({ name, line });
    for (const field of fields ?? []) {
      item.fields ??= new Map();
      putFirst(item.fields, `${name}.${field.name}`, line);
    }
  }
  if (!said || isAdded(saying, said)) return;
  // A number that is set to nothing, or one of several lines that add up, frees itself, and not the name.
  if (said.body.kind === "unset" && (saying.item !== null || saying.repeats)) return;
  const below = later.get(name) ?? { any: line, whole: null, fields: null };
  later.set(name, below);
  if (!fields) below.whole ??= line;
  for (const field of fields ?? []) {
    below.fields ??= new Map();
    putFirst(below.fields, field.name, line);
  }
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
export function nameOf({ key }: Said): string {
  return key;
}

/** Whether it stands beside what other lines say of the name. */
export function isAdded(saying: Saying, said: Said): boolean {
  return (saying.item !== null || saying.repeats) && addsUp(said);
}

function saidAgain(line: number, what?: string): string {
  return `Line ${line + 1} says ${what ?? "it"} again, and the later line counts.`;
}
