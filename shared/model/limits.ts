/** Checks values against the hard limits of their settings, and against the usual bands. */
import type { IntegerType, QuantityType, SettingSpec, UsualBand, ValueType } from "../catalogue/specs.ts";
import { convert, unitFamily } from "../catalogue/units.ts";
import { printValue } from "../syntax/print-value.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { bandConditionText, bandExcluding, type CraftTraits, isInside } from "./usual-band.ts";

export interface LimitIssue extends Cols {
  readonly code: "out-of-range" | "unusual-value";
  readonly message: string;
}

/** One issue for each number of a value outside its hard limits. */
export function beyondLimits(value: Value, setting: SettingSpec): LimitIssue[] {
  const issues: LimitIssue[] = beyondSize(value, setting);
  eachNumber(value, setting.types, setting.name, (number, at, type, name) => {
    const unit = unitOf(type);
    const { min, max } = type;
    const report = (rule: string, source: string) =>
      issues.push({
        code: "out-of-range",
        start: at.start,
        end: at.end,
        message: `Out of range: ${rule} (${source}).${slipText(number, at, type, type.usual ?? [])}`,
      });
    if (min && number < min.at) report(`${name} is at least ${amountText(min.at, unit)}`, min.source);
    if (max && number > max.at) report(`${name} is at most ${amountText(max.at, unit)}`, max.source);
    const multiple = type.is === "integer" ? type.multiple : undefined;
    if (multiple && number % multiple.of !== 0)
      report(`${name} is a multiple of ${multiple.of}, and ${number} is none`, multiple.source);
  });
  return issues;
}

function beyondSize(value: Value, setting: SettingSpec): LimitIssue[] {
  const type = setting.types.find((each) => each.is === "size");
  if (value.kind !== "size" || type?.is !== "size") return [];
  const { mostColumns, mostRows } = type;
  const { columns, rows, start, end } = value;
  if (columns >= 1 && rows >= 1 && columns <= mostColumns && rows <= mostRows) return [];
  const message = `Out of range: ${setting.name} is from 1 x 1 to ${mostColumns} x ${mostRows} cells.`;
  return [{ code: "out-of-range", start, end, message }];
}

/** One issue for each number of a value outside the usual band for such a craft. */
export function beyondUsual(value: Value, setting: SettingSpec, traits: CraftTraits): LimitIssue[] {
  const issues: LimitIssue[] = [];
  eachNumber(value, setting.types, setting.name, (number, at, type, name) => {
    const { min, max } = type;
    if ((min && number < min.at) || (max && number > max.at)) return;
    const band = bandExcluding(type, traits, number);
    if (!band) return;
    const low = band.from !== undefined && number < band.from;
    const unit = unitOf(type);
    const usual =
      band.from === undefined
        ? `up to ${amountText(band.to!, unit)}`
        : band.to === undefined
          ? `from ${amountText(band.from, unit)}`
          : `${amountText(band.from, unit)} to ${amountText(band.to, unit)}`;
    issues.push({
      code: "unusual-value",
      start: at.start,
      end: at.end,
      message: `${name} is unusually ${low ? "low" : "high"}: ${printValue(at)}, where ${usual} is usual${bandConditionText(band)} (${band.source}).${slipText(number, at, type, [band])}`,
    });
  });
  return issues;
}

/** A number and its unit as text; the number alone for "". */
export function amountText(number: number, unit: string): string {
  return unit === "" ? String(number) : `${number} ${unit}`;
}

/** So many times beyond what is usual a number was written on another scale, with its point elsewhere, or with another unit. */
const FAR = 3;
const VERY_FAR = 10;
/** Near by, a change of unit alone would lead across a whole band: that is no accident. */
const NEAR = 1.5;

/**
 * What a number that does not fit most likely was meant to be, as a sentence with a space before it: on
 * which scale the setting is, with which unit the number would be usual, or with its point elsewhere.
 */
function slipText(number: number, at: Value, type: QuantityType | IntegerType, bands: readonly UsualBand[]): string {
  if (number <= 0 || bands.length === 0) return "";
  const off = Math.min(...bands.map((band) => timesBeyond(number, band)));
  if (type.scale !== undefined) return off >= FAR ? ` ${printValue(at)} looks like another scale: ${type.scale}` : "";
  const isUsual = (other: number) => bands.some((band) => isInside(other, band));
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
  return ` ${meant} would be usual: is the point in its place?`;
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
function otherUnitsOf(value: Value, type: QuantityType | IntegerType): string[] {
  if (value.kind !== "quantity" || type.is !== "quantity") return [];
  const units = (unitFamily(type.unit)?.units ?? []).flatMap(({ symbol }) => (symbol === value.unit ? [] : symbol));
  const change = (unit: string) => Math.abs(Math.log(inUnit(value, unit, type) / inUnit(value, value.unit, type)));
  return units.sort((a, b) => change(a) - change(b));
}

/** The same number with another unit, in the unit of the type. */
function inUnit(value: Value, unit: string, type: QuantityType | IntegerType): number {
  return convert(amountOf(value), unit, unitOf(type)) ?? Number.NaN;
}

function unitOf(type: QuantityType | IntegerType): string {
  return type.is === "quantity" ? type.unit : "";
}

type Visit = (number: number, at: Value, type: QuantityType | IntegerType, name: string) => void;

function eachNumber(value: Value, types: readonly ValueType[], name: string, visit: Visit): void {
  for (const type of types) {
    if (type.is === "quantity" && value.kind === "quantity") {
      const number = convert(value.number, value.unit, type.unit);
      // Of another family: one of the other types has it.
      if (number === undefined) continue;
      visit(number, value, type, name);
      return;
    }
    if (type.is === "integer" && value.kind === "integer") {
      visit(value.number, value, type, name);
      return;
    }
    if (type.is === "range" && value.kind === "range") {
      for (const end of [value.from, value.to]) eachNumber(end, [type.of], name, visit);
      return;
    }
    if (type.is === "list" && value.kind === "list") {
      for (const item of value.items) eachNumber(item, [type.of], name, visit);
      return;
    }
    if (type.is === "fields" && value.kind === "fields") {
      for (const field of value.fields) {
        const spec = type.fields.find((each) => each.name === field.name);
        if (spec) eachNumber(field.value, spec.types, `${name} ${field.name}`, visit);
      }
      return;
    }
  }
}
