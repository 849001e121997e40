/**
 * Which pieces of a board line can be a value that a craft has, and by what code: the same, a power of ten, a step, or a
 * word for it.
 */
import { unitFamily } from "../../catalogue/units.ts";
import { CHANNEL, exactIn, type HeldNumber, heldOfOurs, numberIn, textOfHeld } from "../codes/held.ts";
import type { Held } from "../dialect.ts";
import { decimalOf, dividedBy, type Exact, exact, exactOf, numberOf } from "../exact.ts";
import { type BoardToken, boardTokens } from "./board-tokens.ts";

/** How a piece of a line comes to mean a value. */
export type Means =
  /** The board writes what a script does; `unit` stands on the right, behind the slot. */
  | { readonly kind: "plain"; readonly unit: string }
  /** A number in steps; `from` is nought but for channels. */
  | {
      readonly kind: "number";
      readonly each: Exact;
      readonly unit: string;
      readonly from: Exact;
      readonly places: number;
      readonly base: number;
      readonly digits: number | null;
    }
  | { readonly kind: "words"; readonly theirs: string; readonly ours: string | null }
  | { readonly kind: "letters"; readonly pairs: readonly { readonly theirs: string; readonly ours: string }[] }
  | { readonly kind: "text"; readonly within: string };

export interface TokenFit {
  readonly token: BoardToken;
  readonly how: "same" | "power" | "step" | "word";
  readonly means: Means;
}

const PLAIN: Means = { kind: "plain", unit: "" };
/** A step is one of these times a power of ten. */
const STEPS = [2, 2.5, 5] as const;
/** Powers of ten beyond these are no unit and no scale that a board has. */
const MOST_TENS = 6;

/** Every piece of the line that can be the value, the likeliest first; of equal ones the first in the line. */
export function tokensFor(line: string, value: Held): readonly TokenFit[] {
  const tokens = boardTokens(line);
  const fits = tokens.flatMap((token) => {
    const means = meansOf(token, value, token === tokens[0]);
    if (!means) return [];
    const fit: TokenFit = { token, ...means };
    // A small number may be a step by chance, and the first of some choices in truth.
    const isChoice = means.how === "step" && /^\d$/.test(token.text) && numberIn(value)?.unit !== CHANNEL;
    const word = isChoice ? wordFit(token, textOfHeld(value), token === tokens[0]) : null;
    return word ? [fit, { token, ...word }] : [fit];
  });
  return likely(fits, value).sort((a, b) => RANKS[a.how] + rankOf(a, value) - RANKS[b.how] - rankOf(b, value));
}

/** Where a number is written as a number, a word for it is noise; a step may be one by chance, so a choice is offered too. */
function likely(fits: readonly TokenFit[], value: Held): TokenFit[] {
  const isAmount = numberIn(value) !== null && fits.some(({ how }) => how !== "word");
  const isSure = fits.some(({ how }) => how === "same" || how === "power");
  return fits.filter(({ how, token }) => how !== "word" || !isAmount || (!isSure && token.kind === "number"));
}

const RANKS = { same: 0, power: 10, step: 20, word: 30 };

type Fit = Pick<TokenFit, "how" | "means">;

function meansOf(token: BoardToken, value: Held, isFirst: boolean): Fit | null {
  switch (value.kind) {
    case "text":
      return textFit(token, value.text);
    case "unset":
      return wordFit(token, null, isFirst);
    case "order":
    case "list":
      return value.items.length === 1
        ? meansOf(token, value.items[0]!, isFirst)
        : lettersFit(token, value.items.map(textOfHeld), isFirst);
    case "parts":
      return null;
    case "number":
    case "word": {
      const number = numberIn(value);
      const scaled = number && (number.unit === CHANNEL ? channelFit(token, number) : numberFit(token, number));
      return scaled || wordFit(token, textOfHeld(value), isFirst);
    }
  }
}

/** A text, with or without marks around it. */
function textFit({ kind, text, mark }: BoardToken, wanted: string): Fit | null {
  if (text !== wanted || kind === "digits") return null;
  return { how: "same", means: kind === "quoted" ? { kind: "text", within: mark } : PLAIN };
}

function numberFit(token: BoardToken, value: HeldNumber): Fit | null {
  const spelled = numberSpelled(token);
  if (!spelled) return null;
  const { number, places, base, digits } = spelled;
  if (base === 10 && number.over === 0n && value.number.over !== 0n) return null;
  const code = (each: Exact, unit: string): Means => ({ kind: "number", each, unit, from: ZERO, places, base, digits });
  // A board that writes 3.50 does so for every value.
  const isPlain = base === 10 && digits === null && !/\.\d*0$/.test(token.text);
  const inItsUnit = scaleOf(value.number, number);
  if (inItsUnit === "same")
    return { how: "same", means: isPlain ? { kind: "plain", unit: value.unit } : code(ONE, value.unit) };
  // In base 16 any step would fit by chance.
  if (base !== 10) return null;
  for (const { symbol, logarithm } of unitFamily(value.unit)?.units ?? []) {
    if (symbol === value.unit || logarithm) continue;
    const other = exactIn(value.number, value.unit, symbol);
    if (other && scaleOf(other, number) === "same")
      return { how: "power", means: isPlain ? { kind: "plain", unit: symbol } : code(ONE, symbol) };
  }
  if (inItsUnit === null) return null;
  return { how: inItsUnit.how, means: code(inItsUnit.each, value.unit) };
}

const ZERO = exact(0n);
const ONE = exact(1n);

/** The number that a piece writes, and how. */
function numberSpelled(
  token: BoardToken,
): { number: Exact; places: number; base: number; digits: number | null } | null {
  if (token.kind === "number") {
    const [, whole = "", decimals = ""] = /^[-+]?(\d+)(?:\.(\d+))?$/.exec(token.text) ?? [];
    const number = exactOf(token.text);
    // Noughts in front are digits that the board pads.
    const digits = whole.length > 1 && whole.startsWith("0") && decimals === "" ? whole.length : null;
    return number && !token.text.startsWith("+") ? { number, places: decimals.length, base: 10, digits } : null;
  }
  if (token.kind !== "digits" || !/[a-f]/i.test(token.text)) return null;
  const digits = token.text.length > 1 ? token.text.length : null;
  return { number: exact(BigInt(`0x${token.text}`)), places: 0, base: 16, digits };
}

/** What one of the board's steps is, where a step is one that boards use. */
function scaleOf(value: Exact, number: Exact): "same" | { how: "power" | "step"; each: Exact } | null {
  if (value.over * number.under === number.over * value.under) return "same";
  if (value.over === 0n || number.over === 0n) return null;
  const each = dividedBy(value, number);
  const size = numberOf(each);
  if (!(size > 0)) return null;
  const tens = Math.floor(Math.log10(size) + 1e-9);
  if (Math.abs(tens) > MOST_TENS) return null;
  const leading = Number((size / 10 ** tens).toPrecision(12));
  if (leading === 1) return { how: "power", each };
  return STEPS.some((step) => step === leading) ? { how: "step", each } : null;
}

/** Boards count channels from nought, from one, or from the first behind the sticks: one value cannot tell which. */
function channelFit(token: BoardToken, { number }: HeldNumber): Fit | null {
  if (token.kind === "word" && token.text === `ch${decimalOf(number)}`) return { how: "same", means: PLAIN };
  if (token.kind !== "number" || !/^\d{1,2}$/.test(token.text)) return null;
  const first = numberOf(number) - Number(token.text);
  if (first < 0) return null;
  const means: Means = {
    kind: "number",
    each: ONE,
    unit: CHANNEL,
    from: exact(BigInt(first)),
    places: 0,
    base: 10,
    digits: null,
  };
  return { how: first === 0 ? "same" : "step", means };
}

/** A word of the board's own; what a line begins with is its key, and no value unless it is the very word. */
function wordFit(token: BoardToken, ours: string | null, isFirst: boolean): Fit | null {
  const { kind, text } = token;
  if (kind === "quoted" || kind === "digits") return null;
  if (text === ours) return { how: "same", means: PLAIN };
  if (isFirst && text.toLowerCase() !== ours?.toLowerCase()) return null;
  // A choice may be a small number; a long one, or one with a fraction, is an amount.
  if (kind === "number" && !/^-?\d{1,2}$/.test(text)) return null;
  return { how: "word", means: { kind: "words", theirs: text, ours } };
}

/** An order whose items are a letter each, as `rpty`. */
function lettersFit({ kind, text }: BoardToken, items: readonly string[], isFirst: boolean): Fit | null {
  if (isFirst) return null;
  const letters = [...text];
  if (kind !== "word" || letters.length !== items.length || new Set(letters).size !== letters.length) return null;
  return { how: "word", means: { kind: "letters", pairs: letters.map((theirs, i) => ({ theirs, ours: items[i]! })) } };
}

/** Words that join others: seldom a value. */
const SMALL_WORDS: ReadonlySet<string> = new Set("a an and as at by for from in is of the then to with".split(" "));

/** Within its kind: words that look alike come first, then channels by how boards count, then by place. */
function rankOf({ means, token }: TokenFit, value: Held): number {
  if (means.kind === "words" && means.ours !== null) {
    const [theirs, ours] = [means.theirs.toLowerCase(), means.ours.toLowerCase()];
    if (theirs === ours) return 0;
    if (ours.startsWith(theirs) || theirs.startsWith(ours)) return 1;
    if (SMALL_WORDS.has(theirs)) return 6;
    // A number is written as a number: a word for it is unlikely, and another number more so.
    return numberIn(value) ? (token.kind === "number" ? 5 : 4) : token.kind === "number" ? 3 : 2;
  }
  if (means.kind === "number" && means.unit === CHANNEL) {
    const first = numberOf(means.from);
    return first === 1 ? 1 : first === 5 ? 2 : 3;
  }
  // The more letters begin what they stand for, the likelier it is.
  if (means.kind === "letters")
    return (
      5 -
      (5 * means.pairs.filter(({ theirs, ours }) => ours.startsWith(theirs.toLowerCase())).length) / means.pairs.length
    );
  return 0;
}

/** The code as a dialect says it, without its name; null where none is needed. */
export function codeTextOf(means: Means): string | null {
  switch (means.kind) {
    case "plain":
      return null;
    case "words":
      return `words ${wordText(means.theirs)} ${means.ours ?? "unset"}`;
    case "letters":
      return `letters ${means.pairs.map(({ theirs, ours }) => `${wordText(theirs)} ${ours}`).join(", ")}`;
    case "text":
      return `text within ${boardText(means.within)}`;
    case "number": {
      const { each, unit, from, places, base, digits } = means;
      if (unit === CHANNEL) return `number from ch${decimalOf(from)}`;
      const amount = unit === "" ? decimalOf(each) : `${decimalOf(each)} ${unit}`;
      const isBare = unit === "" && each.over === each.under;
      return [
        "number",
        ...(isBare ? [] : [`each ${amount}`]),
        ...(places > 0 ? [`places ${places}`] : []),
        ...(base === 10 ? [] : [`base ${base}`]),
        ...(digits === null ? [] : [`digits ${digits}`]),
      ].join(" ");
    }
  }
}

/** A word of the board's as a code has it: in quotes where it could be taken for something else. */
function wordText(text: string): string {
  return /[\s,"'#]/.test(text) ? boardText(text) : text;
}

/** Text of the board's in the quotes in which nothing of it has to be escaped. */
export function boardText(text: string): string {
  if (!/["\\]/.test(text)) return `"${text}"`;
  return text.includes("'") ? `"${text.replace(/[\\"]/g, "\\$&")}"` : `'${text}'`;
}

/** The value of a script as it is held, from its text: `3.5 V/cell`, `clockwise`, `"Jug"`, `roll pitch yaw`. */
export function heldOfText(text: string): Held {
  const trimmed = text.trim();
  if (trimmed === "unset") return { kind: "unset" };
  const items = trimmed.startsWith('"') ? [trimmed] : trimmed.split(/\s*,\s*/);
  if (items.length > 1) return { kind: "list", items: items.map(heldOfOurs) };
  const held = heldOfOurs(trimmed);
  const words = held.kind === "word" ? held.text.split(/\s+/) : [];
  return words.length > 1 ? { kind: "order", items: words.map((word) => ({ kind: "word", text: word })) } : held;
}
