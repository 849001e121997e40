/**
 * Values of an effective craft as plain numbers, for the readers of this folder (`pack-of.ts` and
 * the like): the value that a file sets, else the catalogue's default, else null.
 *
 * `valueIn` gives the value, `numberIn` its number in one unit, `wordIn` its word, `fieldNumberIn`
 * one field's number; `onceFor` memoizes a reader for the lifetime of a craft.
 * A line with a fault leaves its name without value, so no default stands in for it.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { FieldsType, SettingSpec } from "../catalogue/specs.ts";
import { convert } from "../catalogue/units.ts";
import type { Craft, Setting } from "../model/craft.ts";
import { oncePer } from "../model/memo.ts";
import { readSetting } from "../model/read-value.ts";
import { units } from "../model/units.ts";
import type { Value } from "../syntax/value.ts";

/** The section from which another takes what it does not set: `pack` for a named pack, the first for a second set. */
function fallbackSection(section: string): string | null {
  if (section.startsWith("pack/")) return "pack";
  return section === "rates-second" || section === "gains-second" ? section.slice(0, -"-second".length) : null;
}

/** The effective setting of a section or else of its fallback section; null if neither sets it. */
export function settingIn(craft: Craft, section: string, name: string): Setting | null {
  const own = craft.settings.get(section)?.get(name);
  if (own) return own;
  const next = fallbackSection(section);
  return next === null ? null : settingIn(craft, next, name);
}

const defaults = new WeakMap<SettingSpec, Value | null>();

function defaultOf(spec: SettingSpec | undefined): Value | null {
  if (spec?.default === undefined) return null;
  const known = defaults.get(spec);
  if (known !== undefined) return known;
  const { value } = readSetting(spec.default, { start: 0, end: spec.default.length }, spec, units);
  defaults.set(spec, value);
  return value;
}

/**
 * The value of a setting, else the catalogue's default; null if there is neither, or if the line of the
 * setting has a fault.
 */
export function valueIn(craft: Craft, catalogue: Catalogue, section: string, name: string): Value | null {
  const setting = settingIn(craft, section, name);
  if (setting) return setting.value;
  return defaultIn(catalogue, baseSection(section), name);
}

/** The catalogue's default of a setting of one of its own sections; null if there is none. */
export function defaultIn(catalogue: Catalogue, section: string, name: string): Value | null {
  return defaultOf(catalogue.setting(section, name));
}

function baseSection(section: string): string {
  return fallbackSection(section) ?? section;
}

/** A number in `unit` ("" for a bare one); null for a value of another kind or of another unit family. */
export function numberOf(value: Value | null | undefined, unit: string): number | null {
  if (value?.kind === "integer") return unit === "" ? value.number : null;
  if (value?.kind !== "quantity") return null;
  return convert(value.number, value.unit, unit) ?? null;
}

/** The number of a setting in `unit` ("" for a bare one), as `valueIn` finds it. */
export function numberIn(
  craft: Craft,
  catalogue: Catalogue,
  section: string,
  name: string,
  unit: string,
): number | null {
  return numberOf(valueIn(craft, catalogue, section, name), unit);
}

/** The word of a choice, as `valueIn` finds it; `yes` or `no` for one of these. */
export function wordIn(craft: Craft, catalogue: Catalogue, section: string, name: string): string | null {
  return wordOf(valueIn(craft, catalogue, section, name));
}

/** The word of a value; null for one of another kind. */
export function wordOf(value: Value | null): string | null {
  if (value?.kind === "yes-no") return value.yes ? "yes" : "no";
  return value?.kind === "choice" ? value.word : null;
}

/** One field of a value, by its name; undefined if it is not set. */
export function fieldOf(value: Value | null, field: string): Value | undefined {
  if (value?.kind !== "fields") return undefined;
  return value.fields.find(({ name }) => name === field)?.value;
}

/**
 * The number of one field in `unit`: from the section, else from its fallback section, else the field's
 * default. Null if there is none of these, or if a line of the setting has a fault.
 */
export function fieldNumberIn(
  craft: Craft,
  catalogue: Catalogue,
  section: string,
  name: string,
  field: string,
  unit: string,
): number | null {
  for (let at: string | null = section; at !== null; at = fallbackSection(at)) {
    const setting = craft.settings.get(at)?.get(name);
    if (!setting) continue;
    if (!setting.value) return null;
    const value = fieldOf(setting.value, field);
    if (value) return numberOf(value, unit);
  }
  return defaultField(catalogue.setting(baseSection(section), name), field, unit);
}

/** The default of a field, in `unit`; null if the catalogue has none. */
export function defaultField(spec: SettingSpec | undefined, field: string, unit: string): number | null {
  const fields = spec?.types.find((type): type is FieldsType => type.is === "fields")?.fields;
  const text = fields?.find(({ name }) => name === field)?.default;
  const match = text === undefined ? null : /^(-?[\d.]+) ?(\S*)$/.exec(text);
  if (!match) return null;
  return convert(Number(match[1]), match[2] ?? "", unit) ?? null;
}

/** Memoizes a reader: it runs once for each craft, and again if it is called with another catalogue. */
export function onceFor<T>(read: (craft: Craft, catalogue: Catalogue) => T): typeof read {
  return oncePer(read);
}
