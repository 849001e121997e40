/** Settings of a craft as rules ask for them. Only what some file has said: a rule never fires on defaults alone. */
import { convert } from "../catalogue/units.ts";
import { linkOf } from "../logic/from-craft.ts";
import type { Craft, Setting } from "../model/craft.ts";

/** A setting as SECTION.NAME; undefined where nobody said it. */
export function settingOf(craft: Craft, path: string): Setting | undefined {
  const [section = "", name = ""] = path.split(".");
  return craft.settings.get(section)?.get(name);
}

/** A share of the throttle in percent; a pulse counts from the link's low end point. Null where it is not said. */
export function throttlePercent(craft: Craft, path: string): number | null {
  const value = settingOf(craft, path)?.value;
  if (value?.kind !== "quantity") return null;
  const percent = convert(value.number, value.unit, "%");
  if (percent !== undefined) return percent;
  const pulseUs = convert(value.number, value.unit, "us");
  if (pulseUs === undefined) return null;
  const { fromUs, toUs } = linkOf(craft).endpointsUs;
  return ((pulseUs - fromUs) / (toUs - fromUs)) * 100;
}

/** The number of a quantity in a unit; undefined where there is none, or it has no such unit. */
export function amountIn(setting: Setting | undefined, unit: string): number | undefined {
  return setting?.value?.kind === "quantity" ? convert(setting.value.number, setting.value.unit, unit) : undefined;
}

/** The word that was chosen; undefined where none was. */
export function wordOf(setting: Setting | undefined): string | undefined {
  return setting?.value?.kind === "choice" ? setting.value.word : undefined;
}

/** A figure as a pilot reads it: rounded, without noughts at its end. */
export function figure(number: number, digits: number): string {
  return String(Number(number.toFixed(digits)));
}
