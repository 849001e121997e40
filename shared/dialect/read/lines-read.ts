/** The state of each line, in words, and which of them are kept. */
import { textOfHeld } from "../codes/codes.ts";
import { besideOf } from "./beside.ts";
import type { Joined } from "./join-entries.ts";
import type { LineParse, ReadSlots } from "./line-reader.ts";
import type { ReadLine } from "./reading.ts";
import type { PlacedLine, Saying, Sayings, Takings } from "./sayings.ts";
import type { KeptLine } from "./script-text.ts";

/** Every line with its one state. */
export function linesRead({ placed, takings }: Sayings, joined: Joined): readonly ReadLine[] {
  return placed.map(({ line, parse }) => lineRead(line, parse, takings.get(line), joined));
}

function lineRead(line: number, parse: LineParse, taken: Takings | undefined, joined: Joined): ReadLine {
  switch (parse.kind) {
    case "idle":
      return plainLine(line, "idle");
    case "kept":
      return plainLine(line, "kept");
    case "heading":
      return parse.why === null
        ? { ...plainLine(line, "idle"), slots: slotsRead(parse.slots) }
        : { ...plainLine(line, "odd"), by: parse.by, why: parse.why };
    case "misfit": {
      const by = linesOfDialect(parse.left.meanings);
      return { ...plainLine(line, "odd"), by, why: parse.why };
    }
    case "fits":
      return fittingLine(line, parse, taken!, joined);
  }
}

function plainLine(line: number, state: ReadLine["state"]): ReadLine {
  return { line, state, by: [], says: [], why: null, slots: [] };
}

function fittingLine(
  line: number,
  parse: LineParse & { kind: "fits" },
  { sayings, troubles }: Takings,
  joined: Joined,
): ReadLine {
  const alive = sayings.filter(({ dead }) => dead === null);
  const why = troubles[0] ?? sayings.find(({ dead }) => dead !== null)?.dead ?? lostIn(alive) ?? null;
  const by = linesOfDialect(parse.left.meanings);
  const slots = slotsRead(parse.slots);
  if (alive.length === 0) return { line, state: "odd", by, says: [], why, slots };
  const entries = new Set(alive.flatMap((saying) => joined.entriesOf.get(saying) ?? []));
  const says = [...entries].map(({ section, name, rest }) => `${section} ${name} ${rest}`);
  const isSet = (saying: Saying) => joined.entriesOf.has(saying);
  const beside =
    why === null
      ? besideOf(parse, meaningsOf(alive.filter(isSet)), meaningsOf(alive.filter((each) => !isSet(each))))
      : null;
  const reason = why ?? (beside === null ? null : `${beside}, so the line is kept as well.`);
  return { line, state: "read", by, says, why: reason, slots };
}

/** Why a field of what counts does not. */
function lostIn(alive: readonly Saying[]): string | undefined {
  for (const { lost } of alive) for (const why of lost.values()) return why;
  return undefined;
}

function meaningsOf(sayings: readonly Saying[]) {
  return sayings.map(({ meaning }) => meaning);
}

function linesOfDialect(meanings: readonly { readonly line: number }[]): number[] {
  return meanings.map(({ line }) => line).sort((a, b) => a - b);
}

function slotsRead(slots: ReadSlots): ReadLine["slots"] {
  return [...slots].map(([name, { start, end, held }]) => ({ name, start, end, means: textOfHeld(held) }));
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
