/** Shares of the throttle, as some file says them: a rule never fires on defaults alone. */
import { convert } from "../../catalogue/units.ts";
import { linkOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";

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
