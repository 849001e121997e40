/** By which code a token follows a value through all pairs; none where it does not, or might by chance. */
import { bareText, numberIn } from "../codes/held.ts";
import type { Held } from "../dialect.ts";
import { compareExact, decimalOf, dividedBy, type Exact, exact, exactOf, minus, plus, times } from "../exact.ts";

export type Law =
  /** The board writes what a script does; the unit stands on the right. */
  | { readonly kind: "plain"; readonly unit: string }
  /** What stands behind `number` in a code. */
  | { readonly kind: "number"; readonly clauses: string }
  | { readonly kind: "words"; readonly pairs: readonly (readonly [theirs: string, ours: string])[] }
  /** Text, with this mark around it or none. */
  | { readonly kind: "text"; readonly within: string };

/** The law by which these tokens, one a pair, mean these values. */
export function lawOf(tokens: readonly string[], values: readonly Held[]): Law | null {
  if (new Set(tokens).size < 2) return null;
  const numbers = values.map(numberIn);
  if (numbers.every((each) => each !== null)) {
    const [first] = numbers;
    return numbers.every(({ unit }) => unit === first!.unit)
      ? numberLaw(
          tokens,
          numbers.map(({ number }) => number),
          first!.unit,
        )
      : null;
  }
  if (values.every(({ kind }) => kind === "text")) return textLaw(tokens, values.map(bareText));
  return values.every(({ kind }) => kind === "word") ? wordLaw(tokens, values.map(bareText)) : null;
}

function textLaw(tokens: readonly string[], texts: readonly string[]): Law | null {
  for (const within of ["", '"', "'"])
    if (tokens.every((token, i) => token === within + texts[i]! + within)) return { kind: "text", within };
  return null;
}

/** Each word of the board for one of ours, both ways. */
function wordLaw(tokens: readonly string[], words: readonly string[]): Law | null {
  const [there, back] = [new Map<string, string>(), new Map<string, string>()];
  for (const [i, token] of tokens.entries()) {
    const word = words[i]!;
    if ((there.get(token) ?? word) !== word || (back.get(word) ?? token) !== token) return null;
    there.set(token, word);
    back.set(word, token);
  }
  if ([...there].every(([token, word]) => token === word)) return { kind: "plain", unit: "" };
  return [...there.keys()].some((token) => /^["']/.test(token)) ? null : { kind: "words", pairs: [...there] };
}

/** Steps that need only two values to be believed: these times a power of ten. */
const ROUND = ["1", "2", "25", "5"];

function isRound(each: Exact): boolean {
  const digits = decimalOf(each)
    .replace(/^-/, "")
    .replace(".", "")
    .replace(/^0+|0+$/g, "");
  return ROUND.includes(digits);
}

function numberLaw(tokens: readonly string[], values: readonly Exact[], unit: string): Law | null {
  const base10 = tokens.map((token) => (/^[-+]?\d+(\.\d+)?$/.test(token) ? exactOf(token.replace("+", "")) : null));
  const isDecimal =
    base10.every((each) => each !== null) && !tokens.some((token) => /^-?0\d/.test(token) || token.startsWith("+"));
  if (isDecimal) return scaleOf(base10 as Exact[], values, unit, placesOf(tokens));
  const digits = tokens[0]!.length;
  const isHex = tokens.every((token) => /^[0-9A-Fa-f]+$/.test(token) && token.length === digits);
  if (!isHex) return null;
  const hasLetter = tokens.some((token) => /[A-Fa-f]/.test(token));
  const base = hasLetter ? 16 : 10;
  const numbers = tokens.map((token) => exact(BigInt(hasLetter ? `0x${token}` : token)));
  return scaleOf(numbers, values, unit, ` ${base === 16 ? "base 16 " : ""}digits ${digits}`);
}

/** How many decimals a board writes, where all of them are as many. */
function placesOf(tokens: readonly string[]): string {
  const counts = new Set(tokens.map((token) => (token.split(".")[1] ?? "").length));
  const most = Math.max(...counts);
  return most > 0 ? ` places ${most}` : "";
}

function scaleOf(numbers: readonly Exact[], values: readonly Exact[], unit: string, spelling: string): Law | null {
  const kinds = new Set(values.map(decimalOf)).size;
  if (kinds < 2) return null;
  const through = ratioOf(numbers, values);
  if (through) {
    if (!isRound(through) && kinds < 3) return null;
    if (decimalOf(through) === "1" && !/base|digits/.test(spelling)) {
      // A board that always writes its decimals does so for every value.
      return spelling === "" ? { kind: "plain", unit } : number(through, null, unit, spelling);
    }
    return number(through, null, unit, spelling);
  }
  if (kinds < 3) return null;
  const line = lineThrough(numbers, values);
  if (line) return number(line.each, line.from, unit, spelling);
  const product = values.map((value, i) => times(value, numbers[i]!));
  const isInverse = product.every((each) => compareExact(each, product[0]!) === 0) && product[0]!.over !== 0n;
  return isInverse ? { kind: "number", clauses: `into ${amount(product[0]!, unit)}${spelling}` } : null;
}

function number(each: Exact, from: Exact | null, unit: string, spelling: string): Law {
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
    const each = dividedBy(value, own);
    if (ratio && compareExact(ratio, each) !== 0) return null;
    ratio = each;
  }
  return ratio && exactEnds(ratio) ? ratio : null;
}

function lineThrough(numbers: readonly Exact[], values: readonly Exact[]): { each: Exact; from: Exact } | null {
  const other = numbers.findIndex((each) => compareExact(each, numbers[0]!) !== 0);
  if (other < 0) return null;
  const each = dividedBy(minus(values[other]!, values[0]!), minus(numbers[other]!, numbers[0]!));
  if (each.over === 0n || !exactEnds(each)) return null;
  const from = minus(values[0]!, times(numbers[0]!, each));
  const fits = values.every((value, i) => compareExact(value, plus(from, times(numbers[i]!, each))) === 0);
  return fits && exactEnds(from) ? { each, from } : null;
}

function exactEnds(number: Exact): boolean {
  const read = exactOf(decimalOf(number));
  return read !== null && compareExact(read, number) === 0;
}
