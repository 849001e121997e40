/** Values outside what is usual for a craft of the size that this file says. */
import type { IntegerType, QuantityType, Setting, ValueType } from "../catalogue/types.ts";
import { convert } from "../catalogue/units.ts";
import { spanAt } from "../syntax/span.ts";
import { beyondUsual, type LimitIssue, type Size } from "./limits.ts";
import type { EntryReading } from "./read-entry.ts";
import type { Entry, Issue } from "./script.ts";

export function unusualValues(entries: readonly Entry[], readings: readonly EntryReading[]): Issue[] {
  const size = sizeIn(entries);
  const issues: Issue[] = [];
  for (let i = 0; i < entries.length; i++) {
    for (const { code, message, start, end } of unusualIn(readings[i]!, size))
      issues.push({ code, message, span: spanAt(entries[i]!.line, { start, end }) });
  }
  return issues;
}

const NONE: readonly LimitIssue[] = [];
const judged = new WeakMap<EntryReading, { size: Size; issues: readonly LimitIssue[] }>();

/** What is unusual in a line; remembered, because equal lines share one reading. */
function unusualIn(reading: EntryReading, size: Size): readonly LimitIssue[] {
  const { value, setting } = reading;
  if (!value || !setting || !hasBands(setting)) return NONE;
  const known = judged.get(reading);
  if (known && known.size.cells === size.cells && known.size.propellerIn === size.propellerIn) return known.issues;
  const values = value.kind === "follows" ? [value.from, value.to] : [value];
  const issues = values.flatMap((each) => beyondUsual(each, setting, size));
  judged.set(reading, { size, issues });
  return issues;
}

const bands = new WeakMap<Setting, boolean>();

/** Whether anything is said of what is usual for a setting; most lines need no closer look. */
function hasBands(setting: Setting): boolean {
  let has = bands.get(setting);
  if (has === undefined) {
    has = setting.types.some((type) => numbersOf(type).some(({ usual }) => usual !== undefined));
    bands.set(setting, has);
  }
  return has;
}

/** The numbers of which a type is made. */
function numbersOf(type: ValueType): (QuantityType | IntegerType)[] {
  switch (type.is) {
    case "quantity":
    case "integer":
      return [type];
    case "range":
    case "list":
      return numbersOf(type.of);
    case "fields":
      return type.fields.flatMap((field) => field.types.flatMap(numbersOf));
    default:
      return [];
  }
}

/** The craft's size, as far as these entries say it. */
export function sizeIn(entries: readonly Pick<Entry, "section" | "name" | "value">[]): Size {
  let propellerIn: number | undefined;
  let cells: number | undefined;
  for (const { section, name, value } of entries) {
    if (section === "frame" && name === "propeller-diameter" && value?.kind === "quantity")
      propellerIn = convert(value.number, value.unit, "in");
    if (section === "pack" && name === "cells" && value?.kind === "integer") cells = value.number;
  }
  return { propellerIn, cells };
}
