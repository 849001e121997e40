/** Checks values against the hard limits of their settings, and against the usual bands. */
import type { IntegerType, QuantityType, SettingSpec, UsualBand, ValueType } from "../catalogue/specs.ts";
import { convert } from "../catalogue/units.ts";
import { printValue } from "../syntax/print-value.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";

export interface LimitIssue extends Cols {
  readonly code: "out-of-range" | "unusual-value";
  readonly message: string;
}

/** What the usual bands depend on; undefined if the craft does not set it. */
export interface FrameSize {
  readonly propellerIn?: number | undefined;
  readonly cells?: number | undefined;
}

/** One issue for each number of a value outside its hard limits. */
export function beyondLimits(value: Value, setting: SettingSpec): LimitIssue[] {
  const issues: LimitIssue[] = beyondSize(value, setting);
  eachNumber(value, setting.types, setting.name, (number, at, type, name) => {
    const unit = unitOf(type);
    const { min, max } = type;
    if (min && number < min.at)
      issues.push(outOfRange(at, `${name} is at least ${amountText(min.at, unit)}`, min.source));
    if (max && number > max.at)
      issues.push(outOfRange(at, `${name} is at most ${amountText(max.at, unit)}`, max.source));
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

/** One issue for each number of a value outside the usual band for a craft of this size. */
export function beyondUsual(value: Value, setting: SettingSpec, size: FrameSize): LimitIssue[] {
  const issues: LimitIssue[] = [];
  eachNumber(value, setting.types, setting.name, (number, at, type, name) => {
    const { min, max } = type;
    if ((min && number < min.at) || (max && number > max.at)) return;
    const band = certainBand(type, size, number);
    if (!band || isInside(number, band)) return;
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
      message: `${name} is unusually ${low ? "low" : "high"}: ${printValue(at)}, where ${usual} is usual${bandConditionText(band)} (${band.source}).`,
    });
  });
  return issues;
}

/**
 * The first band that applies for certain, whatever the craft leaves unset. Undefined if an earlier band
 * may apply and contains the number.
 */
function certainBand(type: QuantityType | IntegerType, size: FrameSize, number: number): UsualBand | undefined {
  for (const band of type.usual ?? []) {
    const applies = bandApplies(band, size);
    if (applies === true) return band;
    if (applies === undefined && isInside(number, band)) return undefined;
  }
  return undefined;
}

/** A number and its unit as text; the number alone for "". */
export function amountText(number: number, unit: string): string {
  return unit === "" ? String(number) : `${number} ${unit}`;
}

/** The condition of a band as text, such as “ with propellers of 3 in and more”; empty if it has none. */
export function bandConditionText(band: UsualBand): string {
  const { propellerIn, cells } = band.when ?? {};
  const parts: string[] = [];
  if (propellerIn) parts.push(`propellers of ${intervalText(propellerIn, "in")}`);
  if (cells) parts.push(intervalText(cells, cells.to === 1 ? "cell" : "cells"));
  return parts.length === 0 ? "" : ` with ${parts.join(" and ")}`;
}

function intervalText({ from, to }: Interval, unit: string): string {
  if (from === undefined) return `up to ${to} ${unit}`;
  if (to === undefined) return `${from} ${unit} and more`;
  return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`;
}

type Interval = { readonly from?: number | undefined; readonly to?: number | undefined };

/** Whether a band applies; undefined if that depends on a size that the craft does not set. */
function bandApplies(band: UsualBand, size: FrameSize): boolean | undefined {
  const { propellerIn, cells } = band.when ?? {};
  const both = [intervalHolds(propellerIn, size.propellerIn), intervalHolds(cells, size.cells)];
  return both.includes(false) ? false : both.includes(undefined) ? undefined : true;
}

function intervalHolds(interval: Interval | undefined, number: number | undefined): boolean | undefined {
  if (!interval) return true;
  return number === undefined ? undefined : isInside(number, interval);
}

function isInside(number: number, { from, to }: Interval): boolean {
  return (from === undefined || number >= from) && (to === undefined || number <= to);
}

function outOfRange(at: Cols, rule: string, source: string): LimitIssue {
  return { code: "out-of-range", start: at.start, end: at.end, message: `Out of range: ${rule} (${source}).` };
}

function unitOf(type: QuantityType | IntegerType): string {
  return type.is === "quantity" ? type.unit : "";
}

type Visit = (number: number, at: Value, type: QuantityType | IntegerType, name: string) => void;

function eachNumber(value: Value, types: readonly ValueType[], name: string, visit: Visit): void {
  for (const type of types) {
    if (type.is === "quantity" && value.kind === "quantity") {
      const number = convert(value.number, value.unit, type.unit);
      if (number !== undefined) visit(number, value, type, name);
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
