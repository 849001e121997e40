/** What one line of board text is, by itself and the heading above it: the same for the same text below the same heading. */
import { textOfHeld } from "../codes/codes.ts";
import type { Dialect, Left, Meaning, Pattern } from "../dialect.ts";
import { type ByBeginning, type Candidate, indexOf, type LeftIndex } from "../patterns/index-of-lefts.ts";
import { type Blanks, type LineForm, lineForm, type Sought, soughtOf, standsAt } from "../patterns/line-form.ts";
import { compile, matchForm, type SlotText } from "../patterns/match.ts";
import { besideOf, mayHoldMore } from "./beside.ts";
import { type EntryReader, type Outcome, outcomeOf } from "./entries.ts";
import { type ReadSlot, type ReadSlots, readSlots, sentence, slotOf } from "./slots.ts";
import type { HeldSlots } from "./value-text.ts";

/** Longer lines are kept, unread. */
export const MOST_CHARACTERS = 4096;

/** Where a line stands: below which heading, and what is read there. */
export interface Scope {
  /** The heading's line as it stands; "" above all headings. */
  readonly heading: string;
  readonly lefts: readonly ByBeginning<Left>[];
  readonly slots: ReadonlyMap<string, ReadSlot>;
  /** Lines that were read here, by their text. */
  readonly known: Map<string, LineParse>;
}

export type { ReadSlot } from "./slots.ts";

export type LineParse =
  | { readonly kind: "idle"; readonly what: "blank" | "comment" | "opening" | "closing" }
  /** A heading: what stands below it is read in `below`. `why` says what is wrong with its values; null where nothing is. */
  | {
      readonly kind: "heading";
      readonly below: Scope;
      readonly slots: Scope["slots"];
      readonly why: string | null;
      /** The patterns that it fits, and their lines in the dialect. */
      readonly patterns: readonly Pattern[];
      readonly by: readonly number[];
    }
  | {
      readonly kind: "fits";
      readonly left: Left;
      /** By name; they are read anew for who asks first, as a long text has many. */
      readonly slots: ReadonlyMap<string, ReadSlot>;
      /** What its meanings say that need no other line. */
      readonly says: readonly SaidAlone[];
      /** The number of the line, among lines of one place with the same text before it; null without one. */
      readonly numbered: { readonly item: string; readonly number: number } | null;
      /** What the line holds that its meanings do not say, as the beginning of a sentence; null where there is nothing. */
      readonly beside: string | null;
      /** Where its meanings need other lines too: which, and what they need of this one. */
      readonly half: Half | null;
    }
  /** A left side fits but for a value. */
  | { readonly kind: "misfit"; readonly left: Left; readonly why: string }
  | { readonly kind: "kept" };

export interface SaidAlone {
  readonly meaning: Meaning;
  readonly outcome: Outcome;
}

export interface Half {
  readonly partOf: readonly Meaning[];
  readonly slots: ReadSlots;
  /** With those of the heading above. */
  readonly helds: HeldSlots;
}

export interface LineReader {
  /** Where the first line stands. */
  readonly top: Scope;
  read(line: string, scope: Scope): LineParse;
  /** The slots of a line that a left side or a heading fits, read anew: they are kept for no line. */
  slotsOf(line: string, pattern: Pattern): ReadSlots;
  /** Whether the board adds up lines that begin as this one does. */
  repeats(line: string): boolean;
}

/** As many lines as are remembered below one heading, and as many headings. */
const MOST_KNOWN = 50_000;

/** A reader of one dialect's lines. It remembers what it has read, unless it is made for a single text. */
export function lineReader(dialect: Dialect, entries: EntryReader, remembers = true): LineReader {
  const index = indexOf(dialect);
  const { blanks, comments, opening, closing, repeats } = dialect.text;
  const begins = (text: string) => soughtOf(text, blanks, { start: true });
  const whole = (text: string) => soughtOf(text, blanks, { start: true, end: true });
  const [commentMarks, repeated] = [comments.map(begins), repeats.map(begins)];
  const [first, last] = [opening.map(whole), closing.map(whole)];
  const scopes = new Map<string, LineParse>();
  const makeScope = (heading: string, lefts: readonly ByBeginning<Left>[], slots: Scope["slots"]): Scope => ({
    heading,
    lefts,
    slots,
    known: remembers ? new Map() : NOTHING_KNOWN,
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
    const fit = fitOf(line, blanks, scope, index, entries);
    return fit.kind === "fits" || !heading ? fit : heading;
  };

  return {
    top: makeScope("", [index.above], NO_SLOTS),
    slotsOf: (text, pattern) => slotsOfLine(text, pattern, blanks),
    read(text, scope) {
      if (!remembers) return parse(text, scope);
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
const NOTHING_KNOWN = new Map<string, LineParse>();
const NO_READ_SLOTS: ReadSlots = [];
const NO_SLOTS: ReadonlyMap<string, ReadSlot> = new Map();

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
  makeScope: (heading: string, lefts: readonly ByBeginning<Left>[], slots: Scope["slots"]) => Scope,
): LineParse | null {
  const candidates = index.headings.candidates(line);
  if (candidates.length === 0) return null;
  const known = scopes.get(text);
  if (known) return known;
  const slots = new Map<string, ReadSlot>();
  const lefts: ByBeginning<Left>[] = [];
  const patterns: Pattern[] = [];
  let [fits, why] = [false, null as string | null];
  for (const { compiled, of } of candidates) {
    const match = matchForm(compiled, line);
    if (!match) continue;
    patterns.push(of.pattern);
    const read = readSlots(match, of.pattern);
    if (typeof read === "string") {
      why ??= read;
      continue;
    }
    fits = true;
    for (const slot of read) if (!slots.has(slot.name)) slots.set(slot.name, slot);
    if (of.lefts) lefts.push(of.lefts);
  }
  if (!fits && why === null) return null;
  // Equal headings are the same place for the board, written with whatever blanks.
  const heading: LineParse = {
    kind: "heading",
    below: makeScope(line.text.slice(line.start, line.end), lefts, slots),
    slots,
    why: fits ? null : why,
    patterns,
    by: patterns.map(({ at }) => at.line),
  };
  if (scopes.size >= MOST_KNOWN) scopes.clear();
  scopes.set(text, heading);
  return heading;
}

/** The first left side that fits with its values; else the first that fits but for a value; else the line is kept. */
function fitOf(line: LineForm, blanks: Blanks, scope: Scope, index: LeftIndex, entries: EntryReader): LineParse {
  let misfit: LineParse | null = null;
  for (const group of candidatesOf(line, scope, index)) {
    for (const { compiled, of: left } of group) {
      const match = matchForm(compiled, line);
      if (!match) continue;
      const fit = readLeft(left, match, line, blanks, scope, entries);
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

function readLeft(
  left: Left,
  match: readonly SlotText[],
  { raw }: LineForm,
  blanks: Blanks,
  scope: Scope,
  entries: EntryReader,
): LineParse {
  const slots = readSlots(match, left.pattern);
  if (typeof slots === "string") return { kind: "misfit", left, why: slots };
  const helds = { get: (name: string) => (slotOf(slots, name) ?? scope.slots.get(name))?.held };
  const says: SaidAlone[] = [];
  let partOf: Meaning[] | null = null;
  for (const meaning of left.meanings) {
    if (meaning.lefts.length > 1) {
      partOf ??= [];
      partOf.push(meaning);
      continue;
    }
    const outcome = outcomeOf(entries, meaning, helds, !left.pattern.slots.has("#"));
    if (outcome.kind === "unfit") return { kind: "misfit", left, why: sentence(outcome.why) };
    says.push({ meaning, outcome });
  }
  const half = partOf && { partOf, slots, helds };
  const beside = half ? null : besideAlone(left, slots, says);
  // A copy has room for no more than it holds: a long text has many.
  const numbered = numberIn(left, slots, scope);
  return new FittingLine(left, raw, blanks, { says: says.slice(), numbered, beside, half });
}

type Fit = LineParse & { readonly kind: "fits" };

/** A line that fits. A class, as a getter in each object of a literal makes each of them many times as large. */
class FittingLine implements Fit {
  readonly kind = "fits";
  readonly left: Left;
  readonly says: Fit["says"];
  readonly numbered: Fit["numbered"];
  readonly beside: Fit["beside"];
  readonly half: Fit["half"];
  readonly #raw: string;
  readonly #blanks: Blanks;
  #slots: Fit["slots"] | null = null;

  constructor(left: Left, raw: string, blanks: Blanks, rest: Pick<Fit, "says" | "numbered" | "beside" | "half">) {
    this.left = left;
    this.says = rest.says;
    this.numbered = rest.numbered;
    this.beside = rest.beside;
    this.half = rest.half;
    this.#raw = raw;
    this.#blanks = blanks;
  }

  get slots(): Fit["slots"] {
    this.#slots ??= new Map(slotsOfLine(this.#raw, this.left.pattern, this.#blanks).map((slot) => [slot.name, slot]));
    return this.#slots;
  }
}

/** The slots of a line that the pattern fits; none where it does not. */
function slotsOfLine(raw: string, pattern: Pattern, blanks: Blanks): ReadSlots {
  const match = matchForm(compile(pattern, blanks), lineForm(raw, blanks));
  const slots = match ? readSlots(match, pattern) : NO_READ_SLOTS;
  return typeof slots === "string" ? NO_READ_SLOTS : slots;
}

function besideAlone(left: Left, slots: ReadSlots, says: readonly SaidAlone[]): string | null {
  const isSet = ({ outcome }: SaidAlone) => outcome.kind === "said" && outcome.said.body.kind !== "unset";
  if (!mayHoldMore(left) && says.every(isSet)) return null;
  const meaningOf = ({ meaning }: SaidAlone) => meaning;
  return besideOf(left, slots, says.filter(isSet).map(meaningOf), says.filter((each) => !isSet(each)).map(meaningOf));
}

/** The number of a line, with the text before it and the heading below which it counts. */
function numberIn(left: Left, slots: ReadSlots, scope: Scope): { item: string; number: number } | null {
  const slot = slotOf(slots, "#");
  if (!slot) return null;
  let before = "";
  for (const part of left.pattern.parts) {
    if (part.kind === "slot" && part.name === "#") break;
    before += part.kind === "literal" ? part.text : (slotOf(slots, part.name)?.text ?? "");
  }
  const place = left.under.kind === "anywhere" ? "" : scope.heading;
  const number = Number(textOfHeld(slot.held));
  return { item: `${place}\n${before}\n${number}`, number };
}
