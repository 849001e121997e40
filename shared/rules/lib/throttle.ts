/** Shares of the throttle that a file sets; defaults are not used, as a rule never fires on them alone. */
import { convert } from "../../catalogue/units.ts";
import { linkOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Value } from "../../syntax/value.ts";

/** A share of the throttle in percent; a pulse is converted by the link's end points. Null if it is not set. */
export function throttlePercent(craft: Craft, path: string): number | null {
  return percentOf(craft, settingOf(craft, path)?.value);
}

/** The same of a value. Null if it is no share and no pulse. */
export function percentOf(craft: Craft, value: Value | null | undefined): number | null {
  if (value?.kind !== "quantity") return null;
  const percent = convert(value.number, value.unit, "%");
  if (percent !== undefined) return percent;
  const pulseUs = convert(value.number, value.unit, "us");
  if (pulseUs === undefined) return null;
  const { fromUs, toUs } = linkOf(craft).endpointsUs;
  return ((pulseUs - fromUs) / (toUs - fromUs)) * 100;
}
