/** Throttles that a file says, and what a receiver's preset means for the throttle. */
import { linkOf, stickOrder } from "../logic/from-craft.ts";
import type { Craft, Setting } from "../model/craft.ts";
import { amountIn, quantityOf, settingOf } from "../model/setting-lookup.ts";
import { END_TOLERANCE_US, throttleShare } from "../numbers/sticks.ts";
import type { PhaseDeed } from "../protocol/signal.ts";

type Presets = Extract<PhaseDeed, { kind: "obeys-presets" }>;

/** A throttle that a file sets, as a share or as a pulse, from 0 to 1; null where none is known. */
export function throttleIn(craft: Craft, setting: Setting | undefined): number | null {
  const percent = amountIn(setting, "%");
  if (percent !== undefined) return percent / 100;
  const pulseUs = amountIn(setting, "us");
  const { fromUs, toUs } = linkOf(craft).endpointsUs;
  return pulseUs === undefined || toUs === fromUs ? null : throttleShare(pulseUs, fromUs, toUs);
}

/** The throttle among the receiver's presets; null where the list does not reach its channel. */
export function presetThrottle(craft: Craft): Presets["throttle"] {
  const { loss, endpointsUs } = linkOf(craft);
  const us = loss.pulsesUs.get(stickOrder(craft).indexOf("throttle") + 1);
  if (us === undefined) return null;
  const reversed = settingOf(craft, "link.reversed")?.text.includes("throttle") ?? false;
  const aboveUs = reversed ? endpointsUs.toUs - us : us - endpointsUs.fromUs;
  return { us, is: aboveUs <= END_TOLERANCE_US ? "closed" : "open" };
}

/** Default of `link.centre`; common practice, no source. */
const USUAL_CENTRE_US = 1500;

/** Roll, pitch and yaw among the presets; null where the list does not reach all of them. */
export function presetSticks(craft: Craft): Presets["sticks"] {
  const { pulsesUs } = linkOf(craft).loss;
  const centreUs = quantityOf(craft, "link.centre", "us") ?? USUAL_CENTRE_US;
  const restUs = Math.max(END_TOLERANCE_US, quantityOf(craft, "link.deadband", "us") ?? 0);
  const order = stickOrder(craft);
  const sent = ["roll", "pitch", "yaw"].map((stick) => pulsesUs.get(order.indexOf(stick) + 1));
  if (sent.some((us) => us === undefined)) return null;
  return sent.every((us) => Math.abs(us! - centreUs) <= restUs) ? "centred" : "off-centre";
}
