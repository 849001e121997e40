/** Reads what is typed for a part of a control: its name, its channel, its positions, its range. */
import { FIRST_CONTROL_CHANNEL } from "../../model/free-channel.ts";
import { units } from "../../model/units.ts";
import { RESERVED } from "../../syntax/read-context.ts";
import type { ControlKind } from "../../syntax/value.ts";

/** A part of a control, or what is wrong with it in a sentence. */
export type Read<T> = { readonly value: T } | { readonly problem: string };

export interface Position {
  readonly name: string;
  readonly pulseUs: number;
}

export interface PulseEnds {
  readonly fromUs: number;
  readonly toUs: number;
}

/** Outside these no pulse of a control is accepted by the language either (common practice, no source). */
const LEAST_US = 500;
const MOST_US = 2500;
/** As many as `link.channels` may say (common practice, no source). */
const MOST_CHANNELS = 64;
/** A longer name is no label. */
const LONGEST_NAME = 24;

const plain = (text: string) => text.normalize("NFKD").replace(/\p{M}/gu, "");

/** A control's name from any text: letters and digits, the first a capital; a short one in capitals. */
export function readControlName(text: string): Read<string> {
  const words = plain(text).match(/[A-Za-z0-9]+/g) ?? [];
  const joined = words.map((word) => word.charAt(0).toUpperCase() + word.slice(1)).join("");
  if (!/^[A-Z]/.test(joined)) return { problem: "A control's name begins with a letter, as in TL or K1." };
  if (joined.length > LONGEST_NAME) return { problem: `A control's name has at most ${LONGEST_NAME} letters.` };
  return { value: joined.length <= 3 ? joined.toUpperCase() : joined };
}

/** A channel from `ch5`, `5` or `channel 5`. */
export function readChannel(text: string): Read<number> {
  const digits = /^\s*(?:ch|channel)?\s*(\d{1,4})\s*$/i.exec(text)?.[1];
  if (digits === undefined) return { problem: `“${text}” is no channel: write its number, as in ch5.` };
  const channel = Number(digits);
  if (channel < FIRST_CONTROL_CHANNEL)
    return { problem: "Channels 1 to 4 carry the sticks, so a control takes channel 5 or one above it." };
  if (channel > MOST_CHANNELS) return { problem: `No link carries more than ${MOST_CHANNELS} channels.` };
  return { value: channel };
}

const COUNTED =
  "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen".split(" ");

/** The usual names of so many positions. */
export function usualNames(count: number): readonly string[] {
  if (count === 2) return ["up", "down"];
  return count === 3 ? ["up", "mid", "down"] : Array.from({ length: count }, (_, i) => COUNTED[i] ?? `p${i + 1}`);
}

/** Positions of these names, at equal distances between two pulses. */
export function spread(names: readonly string[], { fromUs, toUs }: PulseEnds): Position[] {
  const step = (toUs - fromUs) / Math.max(1, names.length - 1);
  return names.map((name, i) => ({ name, pulseUs: Math.round(fromUs + i * step) }));
}

/** How many positions each kind has, and how that is said. */
const COUNTS: Readonly<Record<Exclude<ControlKind, "dial">, readonly [least: number, most: number, rule: string]>> = {
  // A switch with more positions is a selector, and is written as one.
  switch: [2, 16, "A switch has 2 or 3 positions"],
  selector: [2, 16, "A selector has 2 to 16 positions"],
  button: [2, 2, "A button has 2 positions, at rest and held"],
};

/** The most positions that are counted by their number alone; more are no positions of anything. */
const MOST_COUNTED = 99;
const PAIR = /^(.*?)[\s:=@]*(\d+(?:\.\d+)?)\s*(us|µs|ms)?$/iu;

/**
 * Positions from `up, down` (then at equal distances between the ends), from `up 1000 us, down 2000 us`, with or without
 * commas and units, or from their number alone.
 */
export function readPositions(
  text: string,
  kind: Exclude<ControlKind, "dial">,
  ends: PulseEnds,
): Read<readonly Position[]> {
  const count = /^\s*(\d{1,2})\s*$/.exec(text)?.[1];
  const read = count
    ? { value: spread(usualNames(Math.min(Number(count), MOST_COUNTED)), ends) }
    : readPairs(text, ends);
  if ("problem" in read) return read;
  const positions = read.value;
  const [least, most, rule] = COUNTS[kind];
  if (positions.length < least || positions.length > most) return { problem: `${rule}; this is ${positions.length}.` };
  return problemWith(positions) ?? read;
}

function readPairs(text: string, ends: PulseEnds): Read<readonly Position[]> {
  const pieces = piecesOf(text);
  const pairs = pieces.map((piece) => PAIR.exec(piece));
  const withPulse = pairs.filter((pair) => pair !== null && pair[1]!.trim() !== "");
  if (withPulse.length === 0) return namesOnly(pieces, ends);
  const positions: Position[] = [];
  for (const [i, piece] of pieces.entries()) {
    const pair = pairs[i];
    const name = pair ? positionName(pair[1]!) : null;
    if (!pair || !name)
      return { problem: `“${piece}” is no position: each has a name and a pulse, as in “up 1000 us, down 2000 us”.` };
    positions.push({ name, pulseUs: Number(pair[2]) * (pair[3]?.toLowerCase() === "ms" ? 1000 : 1) });
  }
  return { value: positions };
}

/** What commas divide; without commas, what pulses end, or else words. */
function piecesOf(text: string): string[] {
  const trimmed = text.trim();
  const pieces = /[,;/|]/.test(trimmed)
    ? trimmed.split(/[,;/|]/)
    : /[^\d\s]\S*\s+\d/.test(trimmed)
      ? (trimmed.match(/\S.*?\s\d+(?:\.\d+)?\s*(?:us|µs|ms)?(?=\s|$)|\S.*$/giu) ?? [])
      : trimmed.split(/\s+/);
  return pieces.map((piece) => piece.trim()).filter((piece) => piece !== "");
}

function namesOnly(pieces: readonly string[], ends: PulseEnds): Read<readonly Position[]> {
  const names = pieces.map(positionName);
  const bad = pieces.find((_, i) => names[i] === null);
  if (bad !== undefined) return { problem: `“${bad}” is no name of a position, as “up” or “down” are.` };
  return { value: spread(names as string[], ends) };
}

/** The name of a position from any text: small letters, digits and hyphens; null where nothing is left of it. */
function positionName(text: string): string | null {
  const name = plain(text)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  if (name === "") return null;
  return /^[a-z]/.test(name) ? name : `p${name}`;
}

function problemWith(positions: readonly Position[]): { readonly problem: string } | null {
  for (const [i, { name, pulseUs }] of positions.entries()) {
    const before = positions.slice(0, i);
    if (RESERVED.has(name) || units.symbol(name))
      return { problem: `No position may be called “${name}”: the language uses the word. Give it another name.` };
    if (before.some((each) => each.name === name))
      return { problem: `There are two positions “${name}”: each needs a name of its own.` };
    const wrong = pulseProblem(pulseUs);
    if (wrong) return { problem: wrong };
    const alike = before.find((each) => each.pulseUs === pulseUs);
    if (alike)
      return {
        problem: `“${alike.name}” and “${name}” have the same pulse, ${pulseUs} us: the craft could not tell them apart.`,
      };
  }
  return null;
}

function pulseProblem(pulseUs: number): string | null {
  if (!Number.isInteger(pulseUs)) return `${pulseUs} us is no whole number of microseconds.`;
  return pulseUs < LEAST_US || pulseUs > MOST_US
    ? `${pulseUs} us is no pulse of the trade: they lie between ${LEAST_US} us and ${MOST_US} us.`
    : null;
}

const RANGE = /^\s*(\d+(?:\.\d+)?)\s*(us|µs|ms)?\s*(?:to|-|–|\.\.|,|\s)\s*(\d+(?:\.\d+)?)\s*(us|µs|ms)?\s*$/iu;

/** Two pulses from `1000 us to 2000 us`, `1000-2000` or `1 ms to 2 ms`; they may fall. */
export function readRange(text: string): Read<PulseEnds> {
  const found = RANGE.exec(text);
  if (!found) return { problem: `“${text}” is no range: write both of its ends, as in “1000 us to 2000 us”.` };
  const [, from, fromUnit, to, toUnit] = found;
  const inUs = (number: string, unit: string | undefined) =>
    Math.round(Number(number) * (unit?.toLowerCase() === "ms" ? 1000 : 1) * 1000) / 1000;
  const ends = { fromUs: inUs(from!, fromUnit ?? toUnit), toUs: inUs(to!, toUnit) };
  const wrong = pulseProblem(ends.fromUs) ?? pulseProblem(ends.toUs);
  if (wrong) return { problem: wrong };
  if (ends.fromUs === ends.toUs)
    return { problem: "A dial that goes from a pulse to the same pulse does nothing: say both of its stops." };
  return { value: ends };
}
