/** Values outside the usual bands: in a file for the size that it sets itself, in a craft for the craft's size. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { IntegerType, QuantityType, SettingSpec, ValueType } from "../catalogue/specs.ts";
import { convert } from "../catalogue/units.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { baseOf, type Craft, type Source } from "./craft.ts";
import { beyondUsual, type FrameSize, type LimitIssue } from "./limits.ts";
import { adjustable } from "./read-entry.ts";
import type { Entry, Issue, Script } from "./script.ts";

/** The unusual values of a file on its own. A craft's own file is checked in its effective craft instead. */
export function unusualValues(entries: readonly Entry[], catalogue: Catalogue): Issue[] {
  return unusualIn(entries, sizesIn(entries), catalogue).map(({ entry, issue: { code, message, start, end } }) => ({
    code,
    message,
    span: spanAt(entry.line, { start, end }),
  }));
}

/** An unusual value of an effective craft, in the file that sets it. */
export interface Unusual extends Cols {
  readonly source: Source;
  readonly message: string;
}

const scriptCache = new WeakMap<Script, { sizes: string; unusual: readonly UnusualEntry[] }>();

/** The effective values that are unusual for the size of the craft. */
export function unusualInCraft(craft: Craft, catalogue: Catalogue): Unusual[] {
  const packs = [...craft.settings.keys()].filter((section) => section.startsWith("pack/"));
  const sizes = ["pack", ...packs].map((section) => [section, ...Object.values(sizeOfCraft(craft, section))]).join();
  return craft.scripts.flatMap((script) => {
    // For an unchanged file in a craft of the same size the last result is still right.
    let last = scriptCache.get(script);
    if (last?.sizes !== sizes) {
      last = { sizes, unusual: unusualIn(script.entries, (section) => sizeOfCraft(craft, section), catalogue) };
      scriptCache.set(script, last);
    }
    return last.unusual.flatMap(({ entry, issue: { message, start, end } }) => {
      const source = { file: script.file, line: entry.line };
      return isEffective(craft, entry, source, start) ? [{ source, message, start, end }] : [];
    });
  });
}

/** Whether the value at a column of an entry's line is the effective one, not overridden by a later line. */
function isEffective(
  craft: Craft,
  { kind, section, name, value }: Entry,
  { file, line }: Source,
  column: number,
): boolean {
  const isHere = (source: Source | undefined) => source?.file === file && source.line === line;
  if (kind === "follows") return isHere(craft.adjust.get(name)?.source);
  const setting = craft.settings.get(section)?.get(name);
  if (setting?.items) return setting.items.some(({ source }) => isHere(source));
  if (value?.kind !== "fields") return isHere(setting?.source);
  const field = value.fields.find((each) => each.value.start <= column && column < each.value.end);
  return isHere(field && setting?.fieldSources.get(field.name));
}

interface UnusualEntry {
  readonly entry: Entry;
  readonly issue: LimitIssue;
}

function unusualIn(
  entries: readonly Entry[],
  sizeAt: (section: string) => FrameSize,
  catalogue: Catalogue,
): UnusualEntry[] {
  const unusual: UnusualEntry[] = [];
  let currentSection: string | null = null;
  let size: FrameSize = {};
  for (const entry of entries) {
    const { kind, section, name, value } = entry;
    if (!value || (kind !== "setting" && kind !== "follows")) continue;
    if (section !== currentSection) size = sizeAt(section);
    currentSection = section;
    const last = issueCache.get(value);
    const same = last?.size.cells === size.cells && last?.size.propellerIn === size.propellerIn;
    let issues = same ? last?.issues : undefined;
    if (!issues) {
      const setting = kind === "follows" ? adjustable(name, catalogue) : catalogue.setting(baseOf(section), name);
      const values = value.kind === "follows" ? [value.from, value.to] : [value];
      issues = setting && hasBands(setting) ? values.flatMap((each) => beyondUsual(each, setting, size)) : NO_ISSUES;
      issueCache.set(value, { size, issues });
    }
    for (const issue of issues) unusual.push({ entry, issue });
  }
  return unusual;
}

const NO_ISSUES: readonly LimitIssue[] = [];
/** By value: equal lines share one value object. */
const issueCache = new WeakMap<Value, { size: FrameSize; issues: readonly LimitIssue[] }>();

const bandCache = new WeakMap<SettingSpec, boolean>();

/** Whether a setting has a usual band; most have none, so that their values need no check. */
function hasBands(setting: SettingSpec): boolean {
  let has = bandCache.get(setting);
  if (has === undefined) {
    has = setting.types.some((type) => numericTypesOf(type).some(({ usual }) => usual !== undefined));
    bandCache.set(setting, has);
  }
  return has;
}

/** The numeric types that a type is made of. */
function numericTypesOf(type: ValueType): (QuantityType | IntegerType)[] {
  switch (type.is) {
    case "quantity":
    case "integer":
      return [type];
    case "range":
    case "list":
      return numericTypesOf(type.of);
    case "fields":
      return type.fields.flatMap((field) => field.types.flatMap(numericTypesOf));
    default:
      return [];
  }
}

/** The size of a craft as it applies to a section: a named pack may have a cell count of its own. */
export function sizeOfCraft(craft: Craft, section = "pack"): FrameSize {
  const plain = craft.settings.get("pack")?.get("cells");
  const cells = section.startsWith("pack/") ? (craft.settings.get(section)?.get("cells") ?? plain) : plain;
  return frameSizeOf(craft.settings.get("frame")?.get("propeller-diameter")?.value, cells?.value);
}

function frameSizeOf(diameter: Value | null | undefined, cells: Value | null | undefined): FrameSize {
  return {
    propellerIn: diameter?.kind === "quantity" ? convert(diameter.number, diameter.unit, "in") : undefined,
    cells: cells?.kind === "integer" ? cells.number : undefined,
  };
}

/** The size that a file sets itself, as it applies to each of its sections. */
function sizesIn(entries: readonly Entry[]): (section: string) => FrameSize {
  let diameter: Value | null = null;
  const cells = new Map<string, Value | null>();
  for (const { section, name, value } of entries) {
    if (name === "propeller-diameter" && section === "frame") diameter = value;
    if (name === "cells" && section.startsWith("pack")) cells.set(section, value);
  }
  const plain = frameSizeOf(diameter, cells.get("pack"));
  return (section) => (cells.has(section) ? frameSizeOf(diameter, cells.get(section)) : plain);
}
