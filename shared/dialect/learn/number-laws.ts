/** By which steps, in which spelling, a token counts a value. */
import {
  compareExact,
  decimalOf,
  dividedBy,
  type Exact,
  exact,
  exactOf,
  minus,
  numberOf,
  plus,
  times,
} from "../exact.ts";
import type { Law } from "./law.ts";

/** How tokens spell numbers: the numbers, and what a code says of it. */
export interface Spelled {
  readonly numbers: readonly Exact[];
  readonly spelling: string;
}

/** A law of numbers with all that it says; `into` is the product. */
export interface Scale {
  readonly from: Exact | null;
  readonly each: Exact;
  readonly into: Exact | null;
}

const DECIMAL = /^-?\d+(\.\d+)?$/;

/** What these tokens were read as before: one token is held against every value. */
const known = [
  new WeakMap<readonly string[], readonly Spelled[]>(),
  new WeakMap<readonly string[], readonly Spelled[]>(),
];

/** Every way to read these tokens as numbers, the likeliest first. */
export function spellingsOf(tokens: readonly string[], isBelowNought = false): readonly Spelled[] {
  const memory = known[isBelowNought ? 1 : 0]!;
  const before = memory.get(tokens);
  if (before) return before;
  const found = allSpellings(tokens, isBelowNought);
  memory.set(tokens, found);
  return found;
}

function allSpellings(tokens: readonly string[], isBelowNought: boolean): Spelled[] {
  const isPadded = tokens.some((token) => /^-?0\d/.test(token));
  if (tokens.some((token) => token.startsWith("+") || token.length > 15)) return [];
  const found: Spelled[] = [];
  if (!isPadded && tokens.every((token) => DECIMAL.test(token)))
    found.push({ numbers: tokens.map((token) => exactOf(token)!), spelling: placesOf(tokens) });
  const digits = tokens[0]!.replace("-", "").length;
  const isEven = tokens.every((token) => token.replace("-", "").length === digits);
  if (isPadded && isEven && tokens.every((token) => /^-?\d+$/.test(token)))
    found.push({ numbers: tokens.map((token) => exact(BigInt(token))), spelling: ` digits ${digits}` });
  const spell = (base: number, what: string) => {
    const bits = BigInt(digits * Math.round(Math.log2(base)));
    const numbers = tokens.map((token) => {
      const n = BigInt(Number.parseInt(token, base));
      return exact(isBelowNought && base !== 36 && n >> (bits - 1n) === 1n ? n - (1n << bits) : n);
    });
    found.push({ numbers, spelling: ` base ${base}${what}` });
  };
  const padding = isEven ? ` digits ${digits}` : "";
  if (isEven && digits > 1 && tokens.every((token) => /^[01]+$/.test(token))) spell(2, padding);
  const hasLetter = tokens.some((token) => /[a-z]/i.test(token));
  if (!tokens.some((token) => token.includes("-") || token.includes("."))) {
    if (tokens.every((token) => /^[0-9a-f]+$/i.test(token)) && (hasLetter || (isEven && digits > 1)) && digits < 12)
      if (isEven || !isPadded) spell(16, padding);
    if (hasLetter && isEven && tokens.every((token) => /^[0-9a-z]+$/i.test(token)) && digits < 10) spell(36, padding);
  }
  return found;
}

/** How many decimals a board writes, where all of them are as many. */
function placesOf(tokens: readonly string[]): string {
  const most = Math.max(...tokens.map((token) => (token.split(".")[1] ?? "").length));
  return most > 0 ? ` places ${most}` : "";
}

/** The board writes the number as a script does. */
export function plainOf(tokens: readonly string[], values: readonly Exact[], unit: string): Law | null {
  const isPlain = tokens.every((token, i) => DECIMAL.test(token) && token === decimalOf(values[i]!));
  return isPlain && countOf(values) > 1 ? { kind: "plain", unit } : null;
}

function countOf(values: readonly Exact[]): number {
  return new Set(values.map(decimalOf)).size;
}

/** The one law that two or three values prove; of two that would do, none. */
export function numberLaw(tokens: readonly string[], values: readonly Exact[], unit: string): Law | null {
  const kinds = countOf(values);
  if (kinds < 2) return null;
  const isBelow = values.some(({ over }) => over < 0n);
  const found = spellingsOf(tokens, isBelow).flatMap(({ numbers, spelling }) => {
    if (countOf(numbers) < 2 || !mayFollow(numbers, values)) return [];
    const scale = scaleOf(numbers, values);
    return scale && isProven(scale, kinds, spelling) ? [lawFor(scale, unit, spelling)] : [];
  });
  // A number that is right in base 10 is not taken for one in another.
  return found.length === 1 || (found.length > 1 && !/base/.test((found[0] as { clauses: string }).clauses))
    ? found[0]!
    : null;
}

/** Without big numbers, which cost most: whether steps or a product may fit at all. */
function mayFollow(numbers: readonly Exact[], values: readonly Exact[]): boolean {
  const [x, y] = [numbers.map(numberOf), values.map(numberOf)];
  const isNear = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(1e-9, Math.abs(a), Math.abs(b));
  const isLine = x.every((n, i) => isNear((n - x[0]!) * (y[1]! - y[0]!), (y[i]! - y[0]!) * (x[1]! - x[0]!)));
  return isLine || x.every((n, i) => isNear(n * y[i]!, x[0]! * y[0]!));
}

/** Steps that need only two values to be believed: these times a power of ten. */
const ROUND = ["1", "2", "25", "5"];

function isRound(each: Exact): boolean {
  return ROUND.includes(
    decimalOf(each)
      .replace(/^-/, "")
      .replace(".", "")
      .replace(/^0+|0+$/g, ""),
  );
}

/** Whether so many different values are enough for it. */
export function isProven({ from, each, into }: Scale, kinds: number, spelling: string): boolean {
  return kinds >= 3 || (kinds === 2 && from === null && into === null && isRound(each) && !spelling.includes("36"));
}

/** The step, through nought or not, or the product that all pairs have. */
export function scaleOf(numbers: readonly Exact[], values: readonly Exact[]): Scale | null {
  const each = ratioOf(numbers, values);
  if (each) return { from: null, each, into: null };
  const line = lineThrough(numbers, values);
  if (line) return { ...line, into: null };
  const product = values.map((value, i) => times(value, numbers[i]!));
  const isInverse = product.every((one) => compareExact(one, product[0]!) === 0) && product[0]!.over !== 0n;
  return isInverse ? { from: null, each: exact(1n), into: product[0]! } : null;
}

/** Whether the number means the value. */
export function scaleFits({ from, each, into }: Scale, number: Exact, value: Exact): boolean {
  if (into) return compareExact(times(number, value), into) === 0;
  const own = times(number, each);
  return compareExact(from ? plus(from, own) : own, value) === 0;
}

/** The law as the code says it. */
export function lawFor({ from, each, into }: Scale, unit: string, spelling: string): Law {
  if (into) return { kind: "number", clauses: `into ${amount(into, unit)}${spelling}` };
  if (spelling === "" && from === null && decimalOf(each) === "1") return { kind: "plain", unit };
  const start = from ? ` from ${amount(from, unit)}` : "";
  return { kind: "number", clauses: `${start} each ${amount(each, unit)}${spelling}`.trim() };
}

function amount(each: Exact, unit: string): string {
  return unit === "" ? decimalOf(each) : `${decimalOf(each)} ${unit}`;
}

/** The one step through nought; null where there is none, or where decimals do not end. */
function ratioOf(numbers: readonly Exact[], values: readonly Exact[]): Exact | null {
  let ratio: Exact | null = null;
  for (const [i, value] of values.entries()) {
    const own = numbers[i]!;
    if (own.over === 0n || value.over === 0n) {
      if (own.over !== value.over) return null;
      continue;
    }
    // Told without a division, which costs most: a : b as c : d.
    if (ratio) {
      if (compareExact(times(ratio, own), value) !== 0) return null;
    } else ratio = dividedBy(value, own);
  }
  return ratio && ratio.over > 0n && exactEnds(ratio) ? ratio : null;
}

function lineThrough(numbers: readonly Exact[], values: readonly Exact[]): { each: Exact; from: Exact } | null {
  const other = numbers.findIndex((each) => compareExact(each, numbers[0]!) !== 0);
  if (other < 0) return null;
  const each = dividedBy(minus(values[other]!, values[0]!), minus(numbers[other]!, numbers[0]!));
  if (each.over <= 0n || !exactEnds(each)) return null;
  const from = minus(values[0]!, times(numbers[0]!, each));
  const fits = values.every((value, i) => compareExact(value, plus(from, times(numbers[i]!, each))) === 0);
  return fits && exactEnds(from) ? { each, from } : null;
}

function exactEnds(number: Exact): boolean {
  const read = exactOf(decimalOf(number));
  return read !== null && compareExact(read, number) === 0;
}
