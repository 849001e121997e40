/**
 * Left sides that are never reached, as something that is tried before them fits all that they fit. Board lines are
 * made of each left side (the ends of every range, every word) and read as any other: the left side is beaten if it
 * fits some of them by itself, and none of those is read by it.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { decodeSlot } from "../codes/codes.ts";
import type { Dialect, DialectIssue, Left, Meaning, Pattern } from "../dialect.ts";
import { fillPattern } from "../patterns/fill.ts";
import { indexOf } from "../patterns/index-of-lefts.ts";
import { matchPattern } from "../patterns/match.ts";
import { type EntryReader, entryReader, outcomeOf } from "../read/entries.ts";
import { type LineParse, type LineReader, lineReader, type ReadSlot, type Scope } from "../read/line-reader.ts";
import { crowdOf, headingsCrowd, headingsOf, MOST_ALIKE } from "./lines-alike.ts";
import { placesOf } from "./right-fits.ts";
import { spellingsOf } from "./spellings.ts";

/** Among more that begin alike none is looked for: that they are too many is told by itself. */
const MOST_TRIED = 4 * MOST_ALIKE;
/** Spellings of one slot, the ends of its range first. */
const MOST_SPELLINGS = 24;

interface Task {
  readonly dialect: Dialect;
  readonly catalogue: Catalogue;
  readonly reader: LineReader;
  /** Reads no headings, and nothing below them. */
  readonly bare: LineReader;
  readonly entries: EntryReader;
  readonly headings: readonly Pattern[];
}

export function linesBeaten(dialect: Dialect, catalogue: Catalogue): DialectIssue[] {
  const entries = entryReader(catalogue);
  const headings = headingsOf(dialect);
  // Without headings a line is read as it is in any place; too many that begin alike would be tried for each line.
  const bare = lineReader(withoutHeadings(dialect), entries);
  const reader = headingsCrowd(dialect, headings) > MOST_TRIED ? bare : lineReader(dialect, entries);
  const task: Task = { dialect, catalogue, entries, headings, bare, reader };
  const crowd = crowdOf(dialect);
  const issues = headingsBeaten(task);
  const scopes = new Map<string, Scope | null>();
  for (const left of dialect.lefts) {
    if (crowd.get(left)! > MOST_TRIED) continue;
    const winner = winnerOver(left, task, scopes);
    if (winner) issues.push({ code: "line-beaten", span: left.pattern.at, ...tellWinner(winner, task) });
  }
  return issues;
}

function withoutHeadings(dialect: Dialect): Dialect {
  const lefts = dialect.lefts.filter(({ under }) => under.kind !== "heading");
  return { ...dialect, lefts, text: { ...dialect.text, headings: [] } };
}

const NOWHERE: Scope = { heading: "", lefts: [], slots: new Map(), known: new Map() };

/** Headings that are read as a comment, an opening or a closing. */
function headingsBeaten({ headings, bare }: Task): DialectIssue[] {
  return headings.flatMap((pattern) => {
    const line = sampleOf(pattern);
    const read = line === undefined ? null : bare.read(line, NOWHERE);
    if (read?.kind !== "idle" || read.what === "blank") return [];
    return [{ code: "line-beaten", span: pattern.at, message: idleMessage(read.what, "heading") }];
  });
}

/** What reads the lines of a left side in its stead; null where it is reached, or where that cannot be told. */
function winnerOver(left: Left, task: Task, scopes: Map<string, Scope | null>): LineParse | null {
  const scope = scopeOf(left, task, scopes);
  if (!scope) return null;
  let winner: LineParse | null = null;
  for (const line of samplesOf(left.pattern, () => plainTexts(left, task))) {
    const read = task.reader.read(line, scope);
    if ((read.kind === "fits" || read.kind === "misfit") && read.left === left) {
      if (read.kind === "fits") return null;
      continue;
    }
    if (read.kind === "kept" || read.kind === "misfit" || !fitsAlone(left, line, scope, task)) continue;
    winner ??= read;
  }
  return winner;
}

/** A place where only what is under the same heading is tried, and what counts anywhere. */
function scopeOf({ under }: Left, { dialect, reader }: Task, scopes: Map<string, Scope | null>): Scope | null {
  if (under.kind === "above-all") return reader.top;
  const key = under.kind === "heading" ? under.pattern.key : "";
  const known = scopes.get(key);
  if (known !== undefined) return known;
  let scope: Scope | null = { heading: "", lefts: [], slots: new Map(), known: new Map() };
  if (under.kind === "heading") {
    const { pattern } = under;
    const line = sampleOf(pattern);
    const { blanks } = dialect.text;
    const lefts = indexOf(dialect).below.get(pattern.key);
    const slots = line === undefined ? null : slotsIn(pattern, line, blanks);
    scope = lefts && slots ? { heading: line!, lefts: [lefts], slots, known: new Map() } : null;
  }
  scopes.set(key, scope);
  return scope;
}

/** What the slots of a line hold; null where it does not fit, or a slot holds nothing of its code. */
function slotsIn(pattern: Pattern, line: string, blanks: Dialect["text"]["blanks"]): Map<string, ReadSlot> | null {
  const match = matchPattern(pattern, line, blanks);
  if (!match) return null;
  const read = new Map<string, ReadSlot>();
  for (const [name, text] of match.slots) {
    const held = decodeSlot(pattern.slots.get(name)!, text.text);
    if (held.kind === "bad") return null;
    read.set(name, { ...text, held });
  }
  return read;
}

/** Whether the line would be read by this left side, were it the only one. */
function fitsAlone(left: Left, line: string, scope: Scope, { dialect, entries }: Task): boolean {
  const slots = slotsIn(left.pattern, line, dialect.text.blanks);
  if (!slots) return false;
  const helds = new Map([...scope.slots, ...slots].map(([name, { held }]) => [name, held]));
  return left.meanings.every(
    (meaning) =>
      meaning.lefts.length > 1 || outcomeOf(entries, meaning, helds, !left.pattern.slots.has("#")).kind !== "unfit",
  );
}

/**
 * Board lines of a pattern: each slot in each of its spellings, while the others stay as they are. Made one by one, as
 * mostly the first of them is enough.
 */
function* samplesOf(pattern: Pattern, plain: () => Iterable<string>): Generator<string> {
  const spelled = new Map<string, readonly string[]>();
  for (const [name, slot] of pattern.slots) {
    const own = [...(slot.default === null ? [] : [slot.default]), ...(spellingsOf(slot) ?? [])];
    spelled.set(name, own.slice(0, MOST_SPELLINGS));
  }
  const isPlain = [...spelled.values()].some((all) => all.length === 0);
  const firsts = (text: string) => new Map([...spelled].map(([name, all]) => [name, all[0] ?? text]));
  for (const text of isPlain ? plain() : ["1"]) yield fillPattern(pattern, firsts(text));
  for (const [name, all] of spelled)
    for (const text of all.slice(1)) yield fillPattern(pattern, new Map([...firsts("1"), [name, text]]));
}

/** The first of them. */
function sampleOf(pattern: Pattern): string | undefined {
  const [line] = samplesOf(pattern, () => ["1"]);
  return line;
}

const NUMBERS = [
  "1",
  "0",
  "7",
  "10",
  "50",
  "100",
  "300",
  "1100",
  "1500",
  "9999",
  "20000",
  "0.5",
  "1.25",
  "2.4",
  "3.3",
  "-5",
];

/** What a board may write where a script's own spelling stands: numbers, and the words of the settings that it may be of. */
function* plainTexts({ meanings }: Left, { catalogue }: Task): Generator<string> {
  yield* NUMBERS;
  const words = new Set(meanings.slice(0, MOST_MEANINGS).flatMap((meaning) => wordsOf(meaning, catalogue)));
  yield* words;
}

/** Of so many meanings of one line the words are tried. */
const MOST_MEANINGS = 8;

function wordsOf(meaning: Meaning, catalogue: Catalogue): readonly string[] {
  const spec = catalogue.section(meaning.section);
  if (!spec) return [];
  const ofPlaces = placesOf(meaning, spec, catalogue)
    .slice(0, 4)
    .flatMap(({ types }) => types)
    .flatMap((type) => (type.is === "fields" ? type.fields.flatMap((field) => field.types) : [type]))
    .flatMap((type): readonly string[] => {
      const one = type.is === "list" ? type.of : type;
      if (one.is === "choice") return one.choices.map(({ word }) => word);
      if (one.is === "order") return [one.words.join(" ")];
      if (one.is === "yes-no") return ["yes", "no"];
      if (one.is === "text") return ["Tankard", "a b"];
      if (one.is === "date") return ["2026-05-01"];
      return one.is === "colour" ? ["red", "#ff8800"] : [];
    });
  return [
    ...ofPlaces,
    ...(spec.holds === "modes" ? ["arm", "level"] : spec.holds === "places" ? ["timer", "amps"] : []),
  ];
}

function tellWinner(winner: LineParse, { headings }: Task): Pick<DialectIssue, "message" | "related"> {
  if (winner.kind === "idle") return { message: idleMessage(winner.what, "line") };
  if (winner.kind === "heading") {
    const line = winner.by[0]!;
    const at = headings.find((each) => each.at.line === line)?.at;
    return {
      message: `This line is never reached: all that it fits is a heading by line ${line + 1}, and headings are tried first. Take one of the two out.`,
      ...(at && { related: [{ message: "This heading fits first", span: at }] }),
    };
  }
  if (winner.kind !== "fits") return { message: "" };
  const { at, key } = winner.left.pattern;
  return {
    message: `This line is never reached: “${key}” in line ${at.line + 1} is tried before it, and fits all that it fits. Move this one above it, or take it out.`,
    related: [{ message: "This line fits first", span: at }],
  };
}

function idleMessage(what: "blank" | "comment" | "opening" | "closing", of: "line" | "heading"): string {
  return `This ${of} is never reached: all that it fits is ${what === "opening" ? "an" : "a"} ${what} by the section “text”, and that is tried first. Take one of the two out.`;
}
