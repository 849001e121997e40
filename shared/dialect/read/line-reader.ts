/** What one line of board text is, by itself and the heading above it: the same for the same text below the same heading. */
import { decodeSlot } from "../codes/codes.ts";
import type { Dialect, Held, Left, Meaning, Pattern } from "../dialect.ts";
import { type ByBeginning, type Candidate, indexOf, type LeftIndex } from "../patterns/index-of-lefts.ts";
import { type LineForm, lineForm, type Sought, soughtOf, standsAt } from "../patterns/line-form.ts";
import { type Match, matchForm, type SlotText } from "../patterns/match.ts";
import { type EntryReader, type Outcome, outcomeOf } from "./entries.ts";

/** Longer lines are kept, unread. */
export const MOST_CHARACTERS = 4096;

/** A slot of a line with what it holds. */
export interface ReadSlot extends SlotText {
  readonly held: Held;
}

export type ReadSlots = ReadonlyMap<string, ReadSlot>;

/** Where a line stands: below which heading, and what is read there. */
export interface Scope {
  /** The heading's line as it stands; "" above all headings. */
  readonly heading: string;
  readonly lefts: readonly ByBeginning<Left>[];
  readonly slots: ReadSlots;
  /** Lines that were read here, by their text. */
  readonly known: Map<string, LineParse>;
}

export type LineParse =
  | { readonly kind: "idle"; readonly what: "blank" | "comment" | "opening" | "closing" }
  /** A heading: what stands below it is read in `below`. `why` says what is wrong with its values; null where nothing is. */
  | {
      readonly kind: "heading";
      readonly below: Scope;
      readonly slots: ReadSlots;
      readonly why: string | null;
      /** The lines of the dialect by which it is one. */
      readonly by: readonly number[];
    }
  | {
      readonly kind: "fits";
      readonly left: Left;
      readonly slots: ReadSlots;
      /** With those of the heading above. */
      readonly helds: ReadonlyMap<string, Held>;
      /** What its meanings say that need no other line. */
      readonly says: readonly { readonly meaning: Meaning; readonly outcome: Outcome }[];
      /** The meanings that need other lines too. */
      readonly partOf: readonly Meaning[];
    }
  /** A left side fits but for a value. */
  | { readonly kind: "misfit"; readonly left: Left; readonly why: string }
  | { readonly kind: "kept" };

export interface LineReader {
  /** Where the first line stands. */
  readonly top: Scope;
  read(line: string, scope: Scope): LineParse;
  /** Whether the board adds up lines that begin as this one does. */
  repeats(line: string): boolean;
}

/** As many lines as are remembered below one heading, and as many headings. */
const MOST_KNOWN = 50_000;

/** A reader of one dialect's lines, which remembers what it has read. */
export function lineReader(dialect: Dialect, entries: EntryReader): LineReader {
  const index = indexOf(dialect);
  const { blanks, comments, opening, closing, repeats } = dialect.text;
  const begins = (text: string) => soughtOf(text, blanks, { start: true });
  const whole = (text: string) => soughtOf(text, blanks, { start: true, end: true });
  const [commentMarks, repeated] = [comments.map(begins), repeats.map(begins)];
  const [first, last] = [opening.map(whole), closing.map(whole)];
  const scopes = new Map<string, LineParse>();
  const makeScope = (heading: string, lefts: readonly ByBeginning<Left>[], slots: ReadSlots): Scope => ({
    heading,
    lefts,
    slots,
    known: new Map(),
  });

  const parse = (text: string, scope: Scope): LineParse => {
    if (text.length > MOST_CHARACTERS) return KEPT;
    const line = lineForm(text, blanks);
    if (isBlank(text)) return IDLE.blank;
    if (commentMarks.some((mark) => standsAt(line, mark, line.start))) return IDLE.comment;
    if (first.some((each) => isWhole(line, each))) return IDLE.opening;
    if (last.some((each) => isWhole(line, each))) return IDLE.closing;
    const heading = headingOf(text, line, index, scopes, makeScope);
    if (heading?.kind === "heading" && heading.why === null) return heading;
    const fit = fitOf(line, scope, index, entries);
    return fit.kind === "fits" || !heading ? fit : heading;
  };

  return {
    top: makeScope("", [index.above], NO_SLOTS),
    read(text, scope) {
      const known = scope.known.get(text);
      if (known) return known;
      // A copy of its own: engines let a slice keep the whole text alive, which what is remembered must not do.
      const own = ` ${text}`.slice(1);
      const parsed = parse(own, scope);
      if (scope.known.size >= MOST_KNOWN) scope.known.clear();
      if (text.length <= MOST_CHARACTERS) scope.known.set(own, parsed);
      return parsed;
    },
    repeats(text) {
      if (repeated.length === 0) return false;
      const line = lineForm(text, blanks);
      return repeated.some((each) => standsAt(line, each, line.start));
    },
  };
}

const KEPT: LineParse = { kind: "kept" };
const IDLE = {
  blank: { kind: "idle", what: "blank" },
  comment: { kind: "idle", what: "comment" },
  opening: { kind: "idle", what: "opening" },
  closing: { kind: "idle", what: "closing" },
} as const satisfies Record<string, LineParse>;
const NO_SLOTS: ReadSlots = new Map();

function isBlank(text: string): boolean {
  return /^[ \t]*$/.test(text);
}

function isWhole(line: LineForm, text: Sought): boolean {
  return line.end - line.start === text.text.length && standsAt(line, text, line.start);
}

/** The line as a heading; null where it is none. A heading whose values do not fit closes the last one all the same. */
function headingOf(
  text: string,
  line: LineForm,
  index: LeftIndex,
  scopes: Map<string, LineParse>,
  makeScope: (heading: string, lefts: readonly ByBeginning<Left>[], slots: ReadSlots) => Scope,
): LineParse | null {
  const candidates = index.headings.candidates(line);
  if (candidates.length === 0) return null;
  const known = scopes.get(text);
  if (known) return known;
  const slots = new Map<string, ReadSlot>();
  const lefts: ByBeginning<Left>[] = [];
  const by: number[] = [];
  let [fits, why] = [false, null as string | null];
  for (const { compiled, of } of candidates) {
    const match = matchForm(compiled, line);
    if (!match) continue;
    by.push(of.pattern.at.line);
    const read = readSlots(match, of.pattern);
    if (typeof read === "string") {
      why ??= read;
      continue;
    }
    fits = true;
    for (const [name, slot] of read) if (!slots.has(name)) slots.set(name, slot);
    if (of.lefts) lefts.push(of.lefts);
  }
  if (!fits && why === null) return null;
  // Equal headings are the same place for the board, written with whatever blanks.
  const heading: LineParse = {
    kind: "heading",
    below: makeScope(line.text.slice(line.start, line.end), lefts, slots),
    slots,
    why: fits ? null : why,
    by,
  };
  if (scopes.size >= MOST_KNOWN) scopes.clear();
  scopes.set(text, heading);
  return heading;
}

/** The first left side that fits with its values; else the first that fits but for a value; else the line is kept. */
function fitOf(line: LineForm, scope: Scope, index: LeftIndex, entries: EntryReader): LineParse {
  let misfit: LineParse | null = null;
  for (const group of candidatesOf(line, scope, index)) {
    for (const { compiled, of: left } of group) {
      const match = matchForm(compiled, line);
      if (!match) continue;
      const fit = readLeft(left, match, scope, entries);
      if (fit.kind === "fits") return fit;
      misfit ??= fit;
    }
  }
  return misfit ?? KEPT;
}

/** Those under the open heading, then those that count anywhere. */
function candidatesOf(line: LineForm, { lefts }: Scope, index: LeftIndex): readonly (readonly Candidate<Left>[])[] {
  const anywhere = index.anywhere.candidates(line);
  if (lefts.length === 0) return [anywhere];
  if (lefts.length === 1) return [lefts[0]!.candidates(line), anywhere];
  // A line that is a heading for several sections: theirs in the order of the dialect.
  const under = lefts.flatMap((group) => group.candidates(line)).sort((a, b) => a.order - b.order);
  return [under, anywhere];
}

function readLeft(left: Left, match: Match, scope: Scope, entries: EntryReader): LineParse {
  const slots = readSlots(match, left.pattern);
  if (typeof slots === "string") return { kind: "misfit", left, why: slots };
  const helds = new Map<string, Held>();
  for (const [name, { held }] of scope.slots) helds.set(name, held);
  for (const [name, { held }] of slots) helds.set(name, held);
  const says: { meaning: Meaning; outcome: Outcome }[] = [];
  const partOf: Meaning[] = [];
  for (const meaning of left.meanings) {
    if (meaning.lefts.length > 1) {
      partOf.push(meaning);
      continue;
    }
    const outcome = outcomeOf(entries, meaning, helds, !left.pattern.slots.has("#"));
    if (outcome.kind === "unfit") return { kind: "misfit", left, why: sentence(outcome.why) };
    says.push({ meaning, outcome });
  }
  return { kind: "fits", left, slots, helds, says, partOf };
}

/** The slots of a match with what they hold; a sentence where one holds nothing of its code. */
function readSlots(match: Match, pattern: Pattern): ReadSlots | string {
  const read = new Map<string, ReadSlot>();
  for (const [name, text] of match.slots) {
    const slot = pattern.slots.get(name);
    const decoded =
      slot && (slot.code || slot.whole) ? decodeSlot(slot, text.text) : ({ kind: "word", text: text.text } as const);
    if (decoded.kind === "bad") return sentence(`“${text.text}” is no value of {${name}}: ${decoded.why}`);
    read.set(name, { ...text, held: decoded });
  }
  return read;
}

/** A reason as a sentence: it may be one already. */
export function sentence(why: string): string {
  const text = why === "" ? "the model does not take it" : why;
  const first = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}
