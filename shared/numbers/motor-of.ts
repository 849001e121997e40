/**
 * The figures of a craft's motors: `motorsOf`, and `motorNotchesOf` for the notches that follow them. Null if a
 * figure that is needed is neither set nor has a default.
 */

import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import { choiceOf, settingOf } from "../model/setting-lookup.ts";
import type { Value } from "../syntax/value.ts";
import { type Harmonic, harmonicsAgainst, type MotorNotches, tipSpeedMs, turnHz, unloadedRpm } from "./motor.ts";
import { CHEMISTRIES, packV } from "./pack.ts";
import { packOf } from "./pack-of.ts";
import { stickTravelsOf } from "./rates-of.ts";
import { throttleShare } from "./sticks.ts";
import { fieldNumberIn, numberIn, numberOf, onceFor, settingIn, valueIn } from "./values.ts";

export interface MotorFigures {
  readonly motors: number | null;
  readonly poles: number | null;
  readonly kvRpmPerV: number | null;
  readonly blades: number | null;
  /** Throttle at which the craft hovers, from 0 to 1. */
  readonly hoverShare: number | null;
  /**
   * Speeds without load: at full throttle on a full pack and, from the nominal volts times the throttle, in the
   * hover and at idle. A propeller slows the motor, so these are upper bounds.
   */
  readonly fullRpm: number | null;
  readonly hoverRpm: number | null;
  readonly idleRpm: number | null;
  readonly tipSpeedMs: number | null;
}

/** A share of the throttle from 0 to 1; a pulse is converted by the link's ends. Null if it is neither. */
export function throttleShareOf(craft: Craft, catalogue: Catalogue, value: Value | null): number | null {
  const [percent, pulseUs] = [numberOf(value, "%"), numberOf(value, "us")];
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (pulseUs !== null && ends) return throttleShare(pulseUs, ends.fromUs, ends.toUs);
  return percent === null ? null : percent / 100;
}

/** With the throttle at rest in its middle, both ends of it may be thrust. */
export function throttleRestsInMiddle(craft: Craft): boolean {
  return Boolean(settingOf(craft, "motors.reverse-band")) || choiceOf(craft, "safety.arm-throttle") === "middle";
}

/** Section and name of the setting by which the craft hovers with its usual pack: what the pack says goes before. */
export function hoverSettingOf(craft: Craft): [section: "pack" | "frame", name: "hover-throttle"] {
  return [settingIn(craft, "pack", "hover-throttle")?.value ? "pack" : "frame", "hover-throttle"];
}

/** The motors of the frame and their speeds; each figure is null if something that it needs is not known. */
export const motorsOf = onceFor((craft, catalogue): MotorFigures => {
  const number = (section: string, name: string, unit: string) => numberIn(craft, catalogue, section, name, unit);
  const { chemistry, cells, fullV } = packOf(craft, catalogue);
  const kv = number("motors", "kv", "rpm/V");
  const nominalV = chemistry === null || cells === null ? null : packV(CHEMISTRIES[chemistry].nominalV, cells);
  const share = (percent: number | null) => (percent === null ? null : percent / 100);
  const hoverShare = throttleShareOf(craft, catalogue, valueIn(craft, catalogue, ...hoverSettingOf(craft)));
  const rpm = (volts: number | null, of: number | null) =>
    kv === null || volts === null || of === null ? null : unloadedRpm(kv, volts * of);
  const fullRpm = rpm(fullV, share(number("motors", "limit", "%")));
  const diameterIn = number("frame", "propeller-diameter", "in");
  return {
    motors: number("frame", "motors", ""),
    poles: number("motors", "poles", ""),
    kvRpmPerV: kv,
    blades: number("frame", "propeller-blades", ""),
    hoverShare,
    fullRpm,
    hoverRpm: rpm(nominalV, hoverShare),
    idleRpm: rpm(nominalV, share(number("motors", "idle", "%"))),
    tipSpeedMs: fullRpm === null || diameterIn === null ? null : tipSpeedMs(diameterIn, fullRpm),
  };
});

/** The notches that follow the motors; null if there are none, or if count, floor or width is not set. */
export const motorNotchesOf = onceFor((craft, catalogue): MotorNotches | null => {
  if (!settingIn(craft, "filters", "motor-notches")) return null;
  const field = (name: string, unit: string) => fieldNumberIn(craft, catalogue, "filters", "motor-notches", name, unit);
  const [count, floorHz, widthHz] = [field("count", ""), field("floor", "Hz"), field("width", "Hz")];
  if (count === null || floorHz === null || widthHz === null) return null;
  const list = valueIn(craft, catalogue, "filters", "motor-notch-depths");
  const depths = list?.kind === "list" ? list.items.map((item) => (numberOf(item, "%") ?? 100) / 100) : [];
  return { count, floorHz, widthHz, easesInHz: field("eases-in", "Hz") ?? 0, depths };
});

/**
 * The motors' harmonics in the hover and what the notches do to them, one more than are cut; null if the
 * speed is not known.
 */
export const hoverHarmonicsOf = onceFor((craft, catalogue): readonly Harmonic[] | null => {
  const notches = motorNotchesOf(craft, catalogue);
  const { hoverRpm, blades } = motorsOf(craft, catalogue);
  if (!notches || hoverRpm === null) return null;
  return harmonicsAgainst(turnHz(hoverRpm), notches, notches.count + 1, blades);
});

/** The kv at which the unloaded motors make `rpm` turns a minute on a pack of so many volts, under the motors' limit. */
export function kvForTurns(craft: Craft, catalogue: Catalogue, fullV: number | null, rpm: number): number | null {
  const limit = numberIn(craft, catalogue, "motors", "limit", "%");
  return fullV === null || limit === null ? null : rpm / ((fullV * limit) / 100);
}

/** The kv at which the unloaded tips move at so many metres a second; as `kvForTurns`. */
export function kvForTipSpeed(craft: Craft, catalogue: Catalogue, fullV: number | null, tipsMs: number): number | null {
  const diameterIn = numberIn(craft, catalogue, "frame", "propeller-diameter", "in");
  // The speed of tips is in proportion to the turns.
  return diameterIn === null ? null : kvForTurns(craft, catalogue, fullV, tipsMs / tipSpeedMs(diameterIn, 1));
}

/** Turns a second in the hover, without load. */
export function hoverTurnHz({ hoverRpm }: MotorFigures): number | null {
  return hoverRpm === null ? null : turnHz(hoverRpm);
}
