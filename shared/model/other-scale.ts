/** What a number that does not fit was most likely meant to be. */
import type { IntegerType, QuantityType, UsualBand, ValueType } from "../catalogue/specs.ts";
import { convert, unitFamily } from "../catalogue/units.ts";
import { printValue } from "../syntax/print-value.ts";
import type { Value } from "../syntax/value.ts";
import { isInside } from "./usual-band.ts";

type NumericType = QuantityType | IntegerType;

/** So many times beyond what is usual a number was written on another scale, with its point elsewhere, or with another unit. */
const FAR = 3;
const VERY_FAR = 10;
/** Near by, a change of unit alone would lead across a whole band: that is no accident. */
const NEAR = 1.5;

/**
 * A sentence with a space before it, or nothing: on which scale the setting is, that the number is that of the whole
 * pack, of a pulse or a share of one, with which unit it would be usual, or that its point stands elsewhere. `number`
 * is that of `at` in the unit of `type`, which is one of the setting's `types`.
 */
export function slipText(
  number: number,
  at: Value,
  type: NumericType,
  bands: readonly UsualBand[],
  types: readonly ValueType[],
): string {
  if (number <= 0 || bands.length === 0) return "";
  const off = Math.min(...bands.map((band) => timesBeyond(number, band)));
  if (type.scale !== undefined) return off >= FAR ? ` ${printValue(at)} looks like another scale: ${type.scale}` : "";
  const isUsual = (other: number) => bands.some((band) => isInside(other, band));
  const apart =
    off < NEAR
      ? ""
      : (ofWholePack(number, type, bands) ?? ofOtherType(at, types) ?? asShare(number, type, isUsual) ?? "");
  if (apart !== "") return apart;
  // Where nothing is too little, any smaller unit would do.
  const least = bands.every(({ from = 0 }) => from > 0) ? NEAR : VERY_FAR;
  const units = off < least ? [] : otherUnitsOf(at, type).filter((each) => isUsual(inUnit(at, each, type)));
  if (units.length > 0) {
    const meant = units.slice(0, least === NEAR ? 2 : 1).map((each) => amountText(amountOf(at), each));
    return ` Was ${meant.join(" or ")} meant?`;
  }
  const by = off < FAR ? undefined : [0.1, 10, 0.01, 100, 0.001, 1000].find((each) => isUsual(rounded(number * each)));
  if (by === undefined || (type.is === "integer" && !Number.isInteger(rounded(number * by)))) return "";
  const meant = amountText(rounded(number * by), unitOf(type));
  // A count has no point; a nought is lost or doubled.
  const slip =
    type.is === "quantity"
      ? "is the point in its place?"
      : by > 1
        ? "is a nought missing?"
        : "is there a nought too many?";
  return ` ${meant} would be usual: ${slip}`;
}

/** A cell is nearest to these volts for most of a flight. */
const USUAL_CELL_V = 3.7;
const MOST_CELLS = 14;

/** `21 V/cell` is the whole of a pack of six. */
function ofWholePack(volts: number, type: NumericType, bands: readonly UsualBand[]): string | undefined {
  if (unitOf(type) !== "V/cell") return undefined;
  const cells = Math.round(volts / USUAL_CELL_V);
  const ofOne = Number((volts / cells).toFixed(2));
  if (cells < 2 || cells > MOST_CELLS || !bands.some((band) => isInside(ofOne, band))) return undefined;
  return ` ${volts} V/cell looks like the volts of the whole pack: of ${cells} cells that is ${ofOne} V/cell.`;
}

/** With the unit of another type of the setting the number would be usual: `1250 %` is a pulse of 1250 us. */
function ofOtherType(at: Value, types: readonly ValueType[]): string | undefined {
  if (at.kind !== "quantity") return undefined;
  const other = types.find(
    (type): type is QuantityType =>
      type.is === "quantity" &&
      // Nearly any share would pass for a small charge.
      type.unit !== "mAh" &&
      convert(1, at.unit, type.unit) === undefined &&
      (type.usual ?? []).some((band) => isInside(at.number, band)),
  );
  return other && ` Was ${amountText(at.number, other.unit)} meant?`;
}

/** `0.8 %` is a share of one, which is 80 %. */
function asShare(number: number, type: NumericType, isUsual: (other: number) => boolean): string | undefined {
  const percent = rounded(number * 100);
  if (unitOf(type) !== "%" || number > 1 || !isUsual(percent)) return undefined;
  return ` ${number} looks like a share of one: as a percentage it is ${percent} %.`;
}

/** A number and its unit as text; the number alone for "". */
export function amountText(number: number, unit: string): string {
  return unit === "" ? String(number) : `${number} ${unit}`;
}

/** How many times a number lies beyond the nearer end of a band; 1 inside of it. */
function timesBeyond(number: number, { from, to }: UsualBand): number {
  if (from !== undefined && number < from) return from / number;
  return to !== undefined && number > to ? number / to : 1;
}

/** Without what binary fractions add. */
function rounded(number: number): number {
  return Number(number.toPrecision(10));
}

function amountOf(value: Value): number {
  return value.kind === "quantity" || value.kind === "integer" ? value.number : Number.NaN;
}

/** The units of the same family in which the value could have been written, the likest first. */
function otherUnitsOf(value: Value, type: NumericType): string[] {
  if (value.kind !== "quantity" || type.is !== "quantity") return [];
  const units = (unitFamily(type.unit)?.units ?? []).flatMap(({ symbol }) => (symbol === value.unit ? [] : symbol));
  const change = (unit: string) => Math.abs(Math.log(inUnit(value, unit, type) / inUnit(value, value.unit, type)));
  return units.sort((a, b) => change(a) - change(b));
}

/** The same number with another unit, in the unit of the type. */
function inUnit(value: Value, unit: string, type: NumericType): number {
  return convert(amountOf(value), unit, unitOf(type)) ?? Number.NaN;
}

function unitOf(type: NumericType): string {
  return type.is === "quantity" ? type.unit : "";
}
