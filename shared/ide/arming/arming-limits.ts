/** What a craft requires before it arms, besides its switches: throttle, tilt, position fix, rest, volts, time. */

import { convert } from "../../catalogue/units.ts";
import type { Positions } from "../../logic/switchboard-types.ts";
import type { Craft, Source } from "../../model/craft.ts";
import { amountIn, settingOf } from "../../model/setting-lookup.ts";

/** What is known of the moment; members that are left out are not known. */
export interface ArmingMoment {
  /** Controls that are not at rest. */
  readonly positions?: Positions;
  readonly throttleUs?: number;
  readonly tiltDeg?: number;
}

export interface Obstacle {
  /** The mode or setting that causes it, as SECTION.NAME. */
  readonly what: string;
  /** `stands`: prevents arming · `open`: may prevent it, depending on what is not known · `wait`: passes with time. */
  readonly state: "stands" | "open" | "wait";
  readonly message: string;
  /** The line that causes it; null where the cause is a missing line. */
  readonly source: Source | null;
}

/** The limits of the script that the moment does not certainly meet. */
export function limitObstacles(craft: Craft, moment: ArmingMoment): Obstacle[] {
  return [...throttleObstacles(craft, moment), ...tiltObstacles(craft, moment), ...unknowableObstacles(craft)];
}

/**
 * The throttle must be below the limit; a throttle at the limit does not meet it (as the setting's reference page
 * says).
 */
function throttleObstacles(craft: Craft, { throttleUs }: ArmingMoment): Obstacle[] {
  const limit = settingOf(craft, "safety.arm-throttle-limit");
  const limitUs = amountIn(limit, "us");
  if (!limit || limitUs === undefined || (throttleUs !== undefined && throttleUs < limitUs)) return [];
  const measured = settingOf(craft, "bench.throttle")?.value;
  const lowUs = measured?.kind === "range" ? convert(measured.from.number, measured.from.unit, "us") : undefined;
  const tooHigh = lowUs !== undefined && lowUs > limitUs;
  const measuredText = tooHigh ? `the stick was measured no lower than ${lowUs} us` : "where it stands is not given";
  const here = throttleUs === undefined ? measuredText : `it stands at ${throttleUs} us`;
  return [
    {
      what: "safety.arm-throttle-limit",
      state: throttleUs === undefined && !tooHigh ? "open" : "stands",
      message: `The throttle must be below ${limitUs} us, and ${here}.`,
      source: limit.source,
    },
  ];
}

function tiltObstacles(craft: Craft, { tiltDeg }: ArmingMoment): Obstacle[] {
  const limit = settingOf(craft, "safety.arm-tilt-limit");
  const limitDeg = amountIn(limit, "deg");
  if (!limit || limitDeg === undefined || limitDeg >= 180 || (tiltDeg !== undefined && tiltDeg <= limitDeg)) return [];
  const here = tiltDeg === undefined ? "how it lies is not given" : `it lies at ${tiltDeg} deg`;
  return [
    {
      what: "safety.arm-tilt-limit",
      state: tiltDeg === undefined ? "open" : "stands",
      message: `The craft must be tilted by ${limitDeg} deg at most, and ${here}.`,
      source: limit.source,
    },
  ];
}

/** Conditions that can only be known on the field, not from a script. */
function unknowableObstacles(craft: Craft): Obstacle[] {
  const open = (name: string, message: string): Obstacle[] => {
    const setting = settingOf(craft, `safety.${name}`);
    return setting ? [{ what: `safety.${name}`, state: "open", message, source: setting.source }] : [];
  };
  const cellVolts = amountIn(settingOf(craft, "safety.arm-needs-cell-volts"), "V/cell");
  return [
    ...(isSetTo(craft, "arm-needs-fix", "yes") ? open("arm-needs-fix", "It waits for a good position fix.") : []),
    ...(isSetTo(craft, "arm-needs-still", "yes")
      ? open("arm-needs-still", "It must lie still while the gyro finds its zero.")
      : []),
    ...(cellVolts !== undefined
      ? open("arm-needs-cell-volts", `Every resting cell must have ${cellVolts} V at least.`)
      : []),
    ...(isSetTo(craft, "arm-on-cable", "no") ? open("arm-on-cable", "No bench cable may be plugged in.") : []),
  ];
}

/** Obstacles that pass with time. */
export function startDelays(craft: Craft): Obstacle[] {
  const hold = settingOf(craft, "safety.arm-hold");
  const holdMs = amountIn(hold, "ms");
  if (!hold || holdMs === undefined || holdMs === 0) return [];
  const message = `What arms it must stay on for ${holdMs} ms before the motors may start.`;
  return [{ what: "safety.arm-hold", state: "wait", message, source: hold.source }];
}

function isSetTo(craft: Craft, name: string, word: "yes" | "no"): boolean {
  const value = settingOf(craft, `safety.${name}`)?.value;
  return value?.kind === "yes-no" && value.yes === (word === "yes");
}
