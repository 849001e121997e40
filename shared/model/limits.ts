/** Checks values against the hard limits of their settings, and against the usual bands. */
import type { IntegerType, QuantityType, SettingSpec, UsualBand, ValueType } from "../catalogue/specs.ts";
import { convert } from "../catalogue/units.ts";
import { printValue } from "../syntax/print-value.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value, ValueOf } from "../syntax/value.ts";
import { amountText, slipText } from "./other-scale.ts";
import { bandConditionText, bandExcluding, type CraftTraits, isInside } from "./usual-band.ts";

export interface LimitIssue extends Cols {
  readonly code: "out-of-range" | "unusual-value";
  readonly message: string;
}

/** One issue for each number of a value outside its hard limits. */
export function beyondLimits(value: Value, setting: SettingSpec): readonly LimitIssue[] {
  if (isWithinLimits(value, setting.types)) return NO_ISSUES;
  const issues: LimitIssue[] = beyondSize(value, setting);
  eachNumber(value, setting.types, setting.name, (number, at, type, name, types) => {
    const unit = unitOf(type);
    const { min, max } = type;
    const report = (rule: string, source: string) =>
      issues.push({
        code: "out-of-range",
        start: at.start,
        end: at.end,
        message: `Out of range: ${rule} (${source}).${slipText(number, at, type, type.usual ?? [], types)}`,
      });
    if (min && number < min.at) report(`${name} is at least ${amountText(min.at, unit)}`, min.source);
    if (max && number > max.at) report(`${name} is at most ${amountText(max.at, unit)}`, max.source);
    const multiple = type.is === "integer" ? type.multiple : undefined;
    if (multiple && number % multiple.of !== 0)
      report(`${name} is a multiple of ${multiple.of}, and ${number} is none`, multiple.source);
  });
  return issues;
}

const NO_ISSUES: readonly LimitIssue[] = [];

/** Whether a value is for certain within its limits: a word, or a number in the unit of its type, as nearly all are. */
function isWithinLimits(value: Value, types: readonly ValueType[]): boolean {
  if (value.kind === "choice" || value.kind === "yes-no") return true;
  if (value.kind !== "quantity" && value.kind !== "integer") return false;
  const type = plainTypeOf(value, types);
  if (!type || (type.is === "integer" && type.multiple)) return false;
  const { number } = value;
  const { min, max } = type;
  return !(min && number < min.at) && !(max && number > max.at);
}

/** The type of a number; null where it is in another unit, or where there is none. */
function plainTypeOf(
  value: ValueOf<"quantity" | "integer">,
  types: readonly ValueType[],
): QuantityType | IntegerType | null {
  for (const type of types) {
    if (type.is === "integer" && value.kind === "integer") return type;
    if (type.is === "quantity" && value.kind === "quantity") return type.unit === value.unit ? type : null;
  }
  return null;
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

/** Gives the bands of a type that may apply to a craft. */
export type BandsOf = (type: QuantityType | IntegerType) => readonly UsualBand[];

/** Whether a value is a number in the unit of its type that is usual for certain, as most are. */
export function isPlainlyUsual(value: Value, types: readonly ValueType[], bandsOf: BandsOf): boolean {
  if (value.kind !== "quantity" && value.kind !== "integer") return false;
  const type = plainTypeOf(value, types);
  if (!type) return false;
  if (type.usual === undefined || value.number === type.off) return true;
  const bands = bandsOf(type);
  for (const band of bands) if (isInside(value.number, band)) return true;
  return bands.length === 0;
}

/** One issue for each number of a value outside the usual band for such a craft. */
export function beyondUsual(value: Value, setting: SettingSpec, traits: CraftTraits): LimitIssue[] {
  const issues: LimitIssue[] = [];
  eachNumber(value, setting.types, setting.name, (number, at, type, name, types) => {
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
      message: `${name} is unusually ${low ? "low" : "high"}: ${printValue(at)}, where ${usual} is usual${bandConditionText(band)} (${band.source}).${slipText(number, at, type, [band], types)}`,
    });
  });
  return issues;
}

function unitOf(type: QuantityType | IntegerType): string {
  return type.is === "quantity" ? type.unit : "";
}

type Visit = (
  number: number,
  at: Value,
  type: QuantityType | IntegerType,
  name: string,
  types: readonly ValueType[],
) => void;

function eachNumber(value: Value, types: readonly ValueType[], name: string, visit: Visit): void {
  for (const type of types) {
    if (type.is === "quantity" && value.kind === "quantity") {
      const number = convert(value.number, value.unit, type.unit);
      // Of another family: one of the other types has it.
      if (number === undefined) continue;
      visit(number, value, type, name, types);
      return;
    }
    if (type.is === "integer" && value.kind === "integer") {
      visit(value.number, value, type, name, types);
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
