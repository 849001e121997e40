/** Parses numbers with their units, and ranges of them. */
import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  type ReadContext,
  type Repair,
  type Units,
  unknownName,
} from "./read-context.ts";
import type { Cols } from "./span.ts";
import type { Quantity, ValueOf } from "./value.ts";

/** Letters that look like the symbol of a unit, with what no symbol has: `m2`, `Hz_`. */
const NO_SYMBOL = /[A-Za-z\u00b5\u03bc_][\w\u00b5\u03bc/-]*/y;

const TOO_LARGE = "This number is too large to compute with.";

/**
 * Parses a number and the unit after it, if there is one; the unit is "" if not. Letters directly
 * after the number that are not a unit are a fault.
 */
export function readNumber(context: ReadContext): Quantity | Fault {
  const { scan, units } = context;
  const digits = scan.digits();
  if (!digits)
    return fault(
      "wrong-type",
      nextCols(context),
      `A number is expected here, but ${describeNext(context)}.`,
      ...bareNumberRepairs(context),
    );
  if (!Number.isFinite(Number(digits.text))) return fault("wrong-type", digits, TOO_LARGE);
  addPiece(context, "number", digits);
  // A nought with a minus is nought.
  const quantity = {
    kind: "quantity" as const,
    number: Number(digits.text) || 0,
    digits: digits.text,
    start: digits.start,
  };
  const before = scan.lastEnd();
  const spelling = scan.symbol();
  const symbol = spelling && units.symbol(spelling.text);
  if (spelling && symbol) {
    addPiece(context, "unit", spelling);
    return { ...quantity, unit: symbol, end: spelling.end };
  }
  scan.moveTo(before);
  const behind = spelling ?? (scan.at() === digits.end ? scan.match(NO_SYMBOL) : null);
  if (behind?.start === digits.end)
    return unknownName(behind, behind.text, units.all, `There is no unit “${behind.text}”.`);
  return { ...quantity, unit: "", end: digits.end };
}

/** The repair of a number in quotes or after a plus sign. */
function bareNumberRepairs(context: ReadContext): Repair[] {
  if (context.scan.done()) return [];
  const { text, start } = context.scan.rest();
  const number = /^(?:\+(-?\d+(?:\.\d+)?)|"(-?\d+(?:\.\d+)?)")/.exec(text);
  if (!number) return [];
  const plain = number[1] ?? number[2]!;
  return [{ title: `Write ${plain}`, start, end: start + number[0].length, text: plain }];
}

/**
 * Parses a range, `number to number`. A first number without a unit has that of the second. It must rise,
 * unless `may-fall`.
 */
export function readRange(context: ReadContext, direction: "rises" | "may-fall" = "rises"): ValueOf<"range"> | Fault {
  const from = readNumber(context);
  if (isFault(from)) return from;
  const to = context.scan.match(/to(?![A-Za-z0-9_-])/y);
  if (!to) {
    return fault(
      "wrong-type",
      nextCols(context),
      `A range is expected here, as in “1000 us to 2000 us”, but ${describeNext(context)} instead of “to”.`,
    );
  }
  addPiece(context, "keyword", to);
  const end = readNumber(context);
  if (isFault(end)) return end;
  const first = from.unit === "" ? { ...from, unit: end.unit } : from;
  const range = { kind: "range" as const, from: first, to: end, start: from.start, end: end.end };
  if (direction === "may-fall") return range;
  const low = first.unit === end.unit ? first.number : context.units.convert(first.number, first.unit, end.unit);
  if (low !== undefined && low >= end.number) {
    return fault("wrong-type", range, "This range does not rise: write the lower end first.");
  }
  return range;
}

/** The number of a quantity, converted to `unit`; a fault if it has no unit, or one of another family. */
export function numberInUnit(context: ReadContext, quantity: Quantity, unit: string, what: string): number | Fault {
  if (quantity.unit === "") {
    if (unit === "") return quantity.number;
    return missingUnit(context.units, quantity, [unit], what);
  }
  const number = unit === "" ? undefined : context.units.convert(quantity.number, quantity.unit, unit);
  if (number === undefined) return wrongUnit(quantity, unit, what);
  return Number.isFinite(number) ? number : fault("wrong-type", quantity, TOO_LARGE);
}

/**
 * The fault of a number with a decimal or thousands comma; null without one. The language has a
 * decimal point and no thousands separator. Not for use in a list, where a comma separates items.
 */
export function commaFault(context: ReadContext, { digits, start, end }: Quantity): Fault | null {
  const rest = context.scan.at() === end ? context.scan.match(/,\d+(?![\d,])/y) : null;
  if (!rest) return null;
  const thousands = rest.end - rest.start === 4 && !/^-?0/.test(digits);
  const plain = `${digits}${thousands ? "" : "."}${rest.text.slice(1)}`;
  const why = thousands ? "Nothing stands between the thousands of a number" : "Decimals stand after a point";
  return fault(
    "wrong-type",
    { start, end: rest.end },
    `${why}, and a comma separates one value from the next: ${plain}.`,
    {
      title: `Write ${plain}`,
      start,
      end: rest.end,
      text: plain,
      // Three decimals look like thousands.
      ...(thousands && { doubtful: true }),
    },
  );
}

/** The fault of a number without unit, with a repair for each unit that it may have. */
export function missingUnit(known: Units, quantity: Quantity, units: readonly string[], what: string): Fault {
  const percent =
    quantity.number > 0 && quantity.number < 1 && units.includes("%") ? `${shareInPercent(quantity)} %` : null;
  const message = percent
    ? `${what} needs a unit: as a share of the whole ${quantity.digits} is ${percent}, or was ${quantity.digits} ${units.join(" or ")} meant?`
    : `${what} needs a unit: ${quantity.digits} ${units.join(" or ")}?`;
  const written = [...(percent ? [percent] : []), ...units.map((unit) => `${quantity.digits} ${unit}`)];
  return fault(
    "missing-unit",
    quantity,
    message,
    ...written.map((text) => ({
      title: `Write ${text}`,
      start: quantity.start,
      end: quantity.end,
      text,
      ...(units.some((unit) => hasNearUnit(known, unit)) && { doubtful: true as const }),
    })),
  );
}

/** A number that is usual in one unit is unusual in another that is so many times as large or as small. */
const FAR_APART = 100;

/** Whether the same number may as well be meant in another unit of the family: metres or feet, seconds or minutes. */
function hasNearUnit({ all, convert, symbol }: Units, unit: string): boolean {
  return all.some((other) => {
    if (symbol(other) === symbol(unit)) return false;
    const times = convert(1, unit, other);
    return times !== undefined && times > 1 / FAR_APART && times < FAR_APART;
  });
}

/** `0.8` as `80`, without what binary fractions add. */
function shareInPercent({ number }: Quantity): number {
  return Number((number * 100).toPrecision(10));
}

/** The fault of a number whose unit is of another family than `unit`. */
export function wrongUnit(quantity: Quantity, unit: string, what: string): Fault {
  const rule = unit === "" ? "is a bare number without unit" : `is given in ${unit}`;
  const at = unitCols(quantity);
  if (unit === "")
    return fault("wrong-unit", at, `${what} ${rule}: remove “${quantity.unit}”.`, {
      ...withoutUnitRepair(quantity),
      doubtful: true,
    });
  return fault("wrong-unit", at, `${what} ${rule}, ${otherKind(quantity, unit)}.`);
}

/** A cell is nearest to these volts for most of a flight. */
const USUAL_CELL_V = 3.7;
/** Up to this many volts belong to one cell. */
const MOST_CELL_V = 4.4;

/** What a unit of another kind tells, without the full stop. */
function otherKind({ number, unit }: Quantity, due: string): string {
  if (unit === "V" && due === "V/cell") {
    if (number <= MOST_CELL_V) return `and “V” is of the whole pack: write V/cell if ${number} V are those of one cell`;
    const cells = Math.round(number / USUAL_CELL_V);
    const ofOne = Number((number / cells).toFixed(2));
    return `and “V” is of the whole pack: divide by the number of cells; of ${cells} cells ${number} V are ${ofOne} V/cell`;
  }
  if (unit === "V/cell" && due === "V") return "which is of the whole pack: multiply by the number of cells";
  return `and “${unit}” is a unit of another kind`;
}

/** The repair that removes the letters after a number. */
export function withoutUnitRepair({ digits, start, end }: Pick<Quantity, "digits" | "start" | "end">): Repair {
  return { title: `Write ${digits}`, start, end, text: digits };
}

function unitCols(quantity: Quantity): Cols {
  return { start: quantity.end - quantity.unit.length, end: quantity.end };
}

/**
 * The ends of a range in us. The second is checked first: the first may have taken its unit from it,
 * and a wrong or missing unit is reported, and repaired, where it is written or should be.
 */
export function pulsesOf(
  context: ReadContext,
  range: ValueOf<"range">,
  what: string,
): { readonly fromUs: number; readonly toUs: number } | Fault {
  const toUs = numberInUnit(context, range.to, "us", what);
  if (typeof toUs !== "number") return toUs;
  const fromUs = numberInUnit(context, range.from, "us", what);
  return typeof fromUs !== "number" ? fromUs : { fromUs, toUs };
}

/** Parses a pulse and converts it to us. */
export function readPulse(context: ReadContext, what: string): { readonly pulseUs: number; readonly at: Cols } | Fault {
  const quantity = readNumber(context);
  if (isFault(quantity)) return quantity;
  const comma = commaFault(context, quantity);
  if (comma) return comma;
  const pulseUs = numberInUnit(context, quantity, "us", what);
  return typeof pulseUs === "number" ? { pulseUs, at: quantity } : pulseUs;
}
