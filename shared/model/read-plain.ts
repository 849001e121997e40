/**
 * The values that most lines have, read in one step: a number with the unit of its type, a whole number, a word of a
 * choice. A script is read for the first time by code that has hardly run, where each step costs.
 */
import type { ValueType } from "../catalogue/specs.ts";
import type { Piece } from "../syntax/piece.ts";
import type { Units } from "../syntax/read-context.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";

/** A number and perhaps a unit, or a word, as the scanner reads them, up to the end of the text. */
const PLAIN = /(?:(-?\d+(\.\d+)?)(?:[ \t]*(%|[A-Za-z\u00b5\u03bc]+(?:\/[A-Za-z]+)?))?|([a-z][a-z0-9-]*))$/y;

/** A value without a fault, and the pieces of its line. */
export interface PlainValue {
  readonly value: Value;
  readonly pieces: Piece[];
}

/** The value in these columns by the first of the types that fits; null where more than this has to be looked at. */
export function readPlain(text: string, at: Cols, types: readonly ValueType[], units: Units): PlainValue | null {
  PLAIN.lastIndex = at.start;
  const found = PLAIN.exec(at.end === text.length ? text : text.slice(0, at.end));
  if (!found) return null;
  const [, digits, decimals, spelling, word] = found;
  if (digits !== undefined) return numberOf(digits, decimals, spelling, at, types, units);
  return word === undefined ? null : wordOf(word, at, types);
}

function numberOf(
  digits: string,
  decimals: string | undefined,
  spelling: string | undefined,
  { start, end }: Cols,
  types: readonly ValueType[],
  units: Units,
): PlainValue | null {
  for (const type of types) {
    // No word and no text begins with a figure.
    if (type.is === "choice" || type.is === "yes-no" || type.is === "text") continue;
    const number = Number(digits) || 0;
    if (type.is === "integer") {
      if (spelling !== undefined || decimals !== undefined || !Number.isSafeInteger(number)) return null;
      return { value: { kind: "integer", number, start, end }, pieces: [{ kind: "number", start, end }] };
    }
    if (type.is !== "quantity" || !Number.isFinite(number)) return null;
    const { unit } = type;
    const digitsEnd = start + digits.length;
    const pieces: Piece[] = [{ kind: "number", start, end: digitsEnd }];
    if (spelling === undefined) {
      if (unit !== "") return null;
    } else {
      if (units.symbol(spelling) !== unit) return null;
      pieces.push({ kind: "unit", start: end - spelling.length, end });
    }
    return { value: { kind: "quantity", number, digits, start, unit, end }, pieces };
  }
  return null;
}

function wordOf(word: string, { start, end }: Cols, types: readonly ValueType[]): PlainValue | null {
  for (const type of types) {
    const { is } = type;
    if (is === "choice") {
      for (const choice of type.choices)
        if (choice.word === word)
          return { value: { kind: "choice", word, start, end }, pieces: [{ kind: "choice", start, end }] };
    } else if (is === "yes-no") {
      if (word === "yes" || word === "no")
        return { value: { kind: "yes-no", yes: word === "yes", start, end }, pieces: [{ kind: "choice", start, end }] };
      // What begins with a figure or a quote is no word.
    } else if (is !== "quantity" && is !== "integer" && is !== "range" && is !== "text" && is !== "date") return null;
  }
  return null;
}
