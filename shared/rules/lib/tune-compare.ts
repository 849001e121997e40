/** Finds changes that make motors hotter than the file below: more damping, or less filtering. */
import { convert } from "../../catalogue/units.ts";
import type { Craft, Setting, Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { Field, Value } from "../../syntax/value.ts";
import type { Location, SettingName } from "../engine/rule.ts";
import { locationAt, valueLocation } from "./locations.ts";

export interface Hotter {
  readonly at: Location;
  /** The line of the file below. */
  readonly before: Location;
  readonly what: string;
  /** The value of the file below, if a single value can be restored. */
  readonly back?: { readonly text: string; readonly start: number; readonly end: number };
}

/** Fields whose rise (1) or fall (-1) heats the motors, by SECTION.NAME of a first set. */
const FIELDS: Readonly<Record<SettingName, Readonly<Record<string, 1 | -1>>>> = {
  "gains.roll": { d: 1 },
  "gains.pitch": { d: 1 },
  "gains.yaw": { d: 1 },
  "gains.d-fast": { roll: 1, pitch: 1, yaw: 1 },
  "filters.motor-notches": { count: -1, width: -1, floor: 1 },
  "filters.tracking-notches": { count: -1, width: -1, floor: 1, ceiling: -1 },
  "filters.moving-cut": { idle: 1, full: 1 },
  "filters.moving-cut-d": { idle: 1, full: 1 },
};
/** Settings of one number whose rise heats the motors. */
const NUMBERS: ReadonlySet<SettingName> = new Set(["gains.overall", "filters.smooth-yaw"] as const);
const NOTCH = "filters.notch";
const LOW_PASSES: ReadonlySet<SettingName> = new Set(["filters.smooth-gyro", "filters.smooth-d"] as const);
/** All settings that are compared here. */
export const COMPARED: readonly SettingName[] = [
  ...(Object.keys(FIELDS) as SettingName[]),
  ...NUMBERS,
  ...LOW_PASSES,
  NOTCH,
];
/** Filters that replace one another: dropping one for the other is no loss. */
const REPLACED_BY: Readonly<Record<string, string>> = {
  "smooth-gyro": "moving-cut",
  "moving-cut": "smooth-gyro",
  "smooth-d": "moving-cut-d",
  "moving-cut-d": "smooth-d",
};
/** Where motors and propellers of small craft vibrate, in Hz. Common practice, no source. */
const VIBRATION_HZ = [100, 150, 225, 340, 500, 750, 1000];

function comparedName({ section, name }: Setting): SettingName {
  return `${section === "gains-second" ? "gains" : section}.${name}`;
}

/** The changes of a setting's fields, or of its one number, that heat the motors more than the file below. */
export function fieldRise(setting: Setting): Hotter[] {
  const path = comparedName(setting);
  const ways = FIELDS[path];
  if (ways) return Object.entries(ways).flatMap(([field, way]) => fieldChange(setting, field, way) ?? []);
  const { before, value } = setting;
  if (!NUMBERS.has(path) || value?.kind !== "quantity" || before?.value?.kind !== "quantity") return [];
  const old = convert(before.value.number, before.value.unit, value.unit);
  if (old === undefined || value.number <= old) return [];
  const what = `${setting.name} is ${setting.text}, up from ${before.text}`;
  const back = { text: before.text, start: value.start, end: value.end };
  return [{ at: locationAt(setting.source, value), before: locationAt(before.source, before.value), what, back }];
}

/** The change of a field against the last value that another file had set. */
function fieldChange(setting: Setting, name: string, way: 1 | -1): Hotter | null {
  const now = fieldWithSource(setting, name);
  let older = setting.before;
  while (older && now && fieldWithSource(older, name)?.source === now.source) older = older.before;
  const old = older && fieldWithSource(older, name);
  if (!now || !old) return null;
  const [number, unit] = numberAndUnit(now.field.value);
  const oldNumber = numberOf(old.field.value, unit);
  if (number === null || oldNumber === null || (number - oldNumber) * way <= 0) return null;
  const inUnit = (value: number) => (unit === "" ? String(value) : `${value} ${unit}`);
  return {
    at: locationAt(now.source, { start: now.field.nameAt.start, end: now.field.value.end }),
    before: locationAt(old.source, { start: old.field.nameAt.start, end: old.field.value.end }),
    what: `${setting.name} ${name} is ${inUnit(number)}, ${way > 0 ? "up" : "down"} from ${inUnit(oldNumber)}`,
    back: { text: printValue(old.field.value), start: now.field.value.start, end: now.field.value.end },
  };
}

function fieldWithSource(setting: Setting, name: string): { field: Field; source: Source } | null {
  const field = setting.value?.kind === "fields" ? setting.value.fields.find((each) => each.name === name) : undefined;
  return field ? { field, source: setting.fieldSources.get(name) ?? setting.source } : null;
}

function numberAndUnit(value: Value): [number: number | null, unit: string] {
  const unit = value.kind === "quantity" ? value.unit : "";
  return [numberOf(value, unit), unit];
}

/** A list of low-passes or of fixed notches that removes less than the one below. */
export function filterLoosened(setting: Setting, workspace: Workspace): Hotter[] {
  const { before } = setting;
  if (!before || setting.section !== "filters") return [];
  const [now, old] = LOW_PASSES.has(comparedName(setting))
    ? [attenuationDb(setting), attenuationDb(before)]
    : comparedName(setting) === NOTCH
      ? [notchedHz(setting), notchedHz(before)]
      : [null, null];
  // Less than a hundredth, of a decibel or a hertz, is rounding.
  if (now === null || old === null || now >= old - 0.01) return [];
  const what = `${setting.name} lets more through than in the layer below (${short(setting)}, instead of ${short(before)})`;
  return [{ at: valueLocation(workspace, setting.source), before: valueLocation(workspace, before.source), what }];
}

/** A value for the middle of a sentence, without alignment spaces. */
function short({ text }: Setting): string {
  return text.replaceAll(/ +/g, " ");
}

/**
 * How far the low-passes of a list together attenuate vibration, in decibels, the mean over `VIBRATION_HZ`:
 * 10 log10(1 + (f / cut)^(2 order)), the Butterworth response (textbook formula, from memory). Null for a fault.
 */
function attenuationDb({ items }: Setting): number | null {
  let sum = 0;
  for (const { value } of items ?? []) {
    const cutHz = numberOf(fieldOf(value, "cut"), "Hz");
    const order = numberOf(fieldOf(value, "order"), "") ?? 1;
    if (cutHz === null) return null;
    for (const hz of VIBRATION_HZ) sum += 10 * Math.log10(1 + (hz / cutHz) ** (2 * order));
  }
  return sum / VIBRATION_HZ.length;
}

/** The total width of the fixed notches of a list, in Hz. Null if a line has an error. */
function notchedHz({ items }: Setting): number | null {
  let sum = 0;
  for (const { value } of items ?? []) {
    const widthHz = numberOf(fieldOf(value, "width"), "Hz");
    if (widthHz === null) return null;
    sum += widthHz;
  }
  return sum;
}

/** Filters that a file dropped and no file has set again. */
export function droppedFilters(craft: Craft, workspace: Workspace): Hotter[] {
  return [...craft.removedByDrop.values()].flatMap(({ setting, source, start, end }) => {
    const { section, name } = setting;
    const path = comparedName(setting);
    const filters = LOW_PASSES.has(path) || path === NOTCH || NUMBERS.has(path) || FIELDS[path] !== undefined;
    const instead = REPLACED_BY[name] && craft.settings.get("filters")?.get(REPLACED_BY[name]);
    if (section !== "filters" || !filters || (instead && isNewSince(craft, instead, source))) return [];
    const what = `${name} (${short(setting)}) is taken away`;
    return [{ at: locationAt(source, { start, end }), before: valueLocation(workspace, setting.source), what }];
  });
}

/** Whether a filter first stands in the file of a `drop`, or in a later one; one below it was at work before, too. */
function isNewSince(craft: Craft, filter: Setting, drop: Source): boolean {
  const rank = (file: string) => craft.scripts.findIndex((script) => script.file === file);
  return !filter.before && rank(filter.source.file) >= rank(drop.file);
}
