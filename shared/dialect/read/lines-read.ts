/** The state of each line, in words, and which of them are kept. */
import { textOfHeld } from "../codes/codes.ts";
import type { Left, Pattern } from "../dialect.ts";
import { besideOf } from "./beside.ts";
import type { LineParse, LineReader } from "./line-reader.ts";
import type { ReadLine } from "./reading.ts";
import type { JoinedEntry, PlacedLine, Saying, Sayings, Takings } from "./sayings.ts";
import type { KeptLine } from "./script-text.ts";

/** Every line with its one state. What has become of the sayings is settled by now. */
export function linesRead({ placed, takings }: Sayings, reader: LineReader): readonly ReadLine[] {
  return placed.map((each) => lineRead(each, takings.get(each.line), reader));
}

function lineRead({ line, text, parse }: PlacedLine, taken: Takings | undefined, reader: LineReader): ReadLine {
  switch (parse.kind) {
    case "idle":
    case "kept":
      return { line, state: parse.kind, by: NONE, says: NONE, why: null, slots: NONE };
    case "heading": {
      const state = parse.why === null ? "idle" : "odd";
      const by = parse.why === null ? NONE : parse.by;
      return new LineWithSlots({ line, state, by, says: NONE, why: parse.why }, text, parse.patterns, reader);
    }
    case "misfit":
      return { line, state: "odd", by: linesOfDialect(parse.left), says: NONE, why: parse.why, slots: NONE };
    case "fits":
      return fittingLine(line, text, parse, taken!, reader);
  }
}

const NONE: readonly never[] = [];

/** A line whose slots are read anew for who asks: few do, and a long text has many. A class, as fitting lines are. */
class LineWithSlots implements ReadLine {
  readonly line: number;
  readonly state: ReadLine["state"];
  readonly by: readonly number[];
  readonly says: readonly string[];
  readonly why: string | null;
  readonly #text: string;
  readonly #patterns: readonly Pattern[];
  readonly #reader: LineReader;

  constructor(plain: Omit<ReadLine, "slots">, text: string, patterns: readonly Pattern[], reader: LineReader) {
    this.line = plain.line;
    this.state = plain.state;
    this.by = plain.by;
    this.says = plain.says;
    this.why = plain.why;
    this.#text = text;
    this.#patterns = patterns;
    this.#reader = reader;
  }

  get slots(): ReadLine["slots"] {
    const all = this.#patterns.flatMap((pattern) => this.#reader.slotsOf(this.#text, pattern));
    const slots = new Map(all.map((slot) => [slot.name, slot]));
    return [...slots.values()].map(({ name, start, end, held }) => ({ name, start, end, means: textOfHeld(held) }));
  }
}

function fittingLine(
  line: number,
  text: string,
  parse: LineParse & { kind: "fits" },
  { sayings, trouble }: Takings,
  reader: LineReader,
): ReadLine {
  const { left, half } = parse;
  const alive = sayings.filter(({ dead }) => dead === null);
  const why = trouble ?? sayings.find(({ dead }) => dead !== null)?.dead ?? lostIn(alive) ?? null;
  const by = linesOfDialect(left);
  if (alive.length === 0)
    return new LineWithSlots({ line, state: "odd", by, says: NONE, why }, text, patternOf(left), reader);
  // Where halves were joined, or nothing has come of what was said, it is known only now what is said.
  const slots = half?.slots ?? (alive.every(isAsSaid) ? null : reader.slotsOf(text, left.pattern));
  const beside = slots ? besideOf(left, slots, meaningsOf(alive, true), meaningsOf(alive, false)) : parse.beside;
  const reason = why ?? (beside === null ? null : `${beside}, so the line is kept as well.`);
  const plain = { line, state: "read", by, says: saidBy(alive), why: reason } as const;
  return new LineWithSlots(plain, text, patternOf(left), reader);
}

/** Whether an entry has come of it, if it says one. */
function isAsSaid({ outcome, entries }: Saying): boolean {
  return (outcome.kind === "said" && outcome.said.body.kind !== "unset") === (entries !== null);
}

/** In our words, each entry once. */
function saidBy(alive: readonly Saying[]): readonly string[] {
  const told = ({ section, name, rest }: JoinedEntry) => `${section} ${name} ${rest}`;
  if (alive.length === 1) return alive[0]!.entries?.map(told) ?? NONE;
  return [...new Set(alive.flatMap(({ entries }) => entries?.map(told) ?? []))];
}

/** Why a field of what counts does not. */
function lostIn(alive: readonly Saying[]): string | undefined {
  for (const { lost } of alive) for (const why of lost?.values() ?? []) return why;
  return undefined;
}

/** The meanings by which something is set, or by which nothing is. */
function meaningsOf(sayings: readonly Saying[], isSet: boolean) {
  return sayings.filter(({ entries }) => (entries !== null) === isSet).map(({ meaning }) => meaning);
}

const patterns = new WeakMap<Left, readonly Pattern[]>();

function patternOf(left: Left): readonly Pattern[] {
  let list = patterns.get(left);
  if (!list) {
    list = [left.pattern];
    patterns.set(left, list);
  }
  return list;
}

const factLines = new WeakMap<Left, readonly number[]>();

function linesOfDialect(left: Left): readonly number[] {
  let lines = factLines.get(left);
  if (!lines) {
    lines = left.meanings.map(({ line }) => line).sort((a, b) => a - b);
    factLines.set(left, lines);
  }
  return lines;
}

/**
 * The lines that are kept, in order, each behind the heading below which it stands: what is unknown or odd, comments,
 * what says more than its entries, and headings with nothing below.
 */
export function keptLines(placed: readonly PlacedLine[], read: readonly ReadLine[]): KeptLine[] {
  const kept: KeptLine[] = [];
  const below = new Set(placed.filter(isBelow).map(({ headingLine }) => headingLine));
  let heading = -1;
  for (const { line, text, parse, headingLine } of placed) {
    const { state, why } = read[line]!;
    const isHeading = parse.kind === "heading";
    const isComment = parse.kind === "idle" && parse.what === "comment";
    const isBare = isHeading && !below.has(line);
    if (state !== "odd" && state !== "kept" && !isComment && !isBare && !(state === "read" && why !== null)) continue;
    if (!isHeading && headingLine !== heading) {
      if (headingLine >= 0) kept.push({ line: headingLine, text: placed[headingLine]!.text });
      heading = headingLine;
    }
    if (isHeading) heading = line;
    kept.push({ line, text });
  }
  return kept;
}

/** Whether a line gives its heading something below it: all but what is blank, or sent first and last. */
function isBelow({ parse }: PlacedLine): boolean {
  return parse.kind !== "heading" && !(parse.kind === "idle" && parse.what !== "comment");
}
