/** Consequences of filter settings: delay, share that passes, and delay of the whole chain. */

import type { Craft } from "../../model/craft.ts";
import { lowFrequencyDelayMs, lowPass, lowPassDelayMs, responseOf } from "../../numbers/filters.ts";
import { type Filter, type FilterFigures, filtersOf } from "../../numbers/filters-of.ts";
import { turnHz } from "../../numbers/motor.ts";
import { hoverHarmonicsOf, hoverSettingOf, motorsOf } from "../../numbers/motor-of.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatHertz, formatNumber, formatPercent } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  consequence,
} from "./provider.ts";

/** The settings on which the turns in the hover rest. */
const hoverPaths = (craft: Craft) => [hoverSettingOf(craft).join("."), "motors.kv", "pack.cells", "pack.chemistry"];

/** The filter of the query's line, of all filters with a fixed frequency. */
function filterOnLine({ source, name }: ConsequenceSubject, figures: FilterFigures): Filter | undefined {
  return [...figures.gyro, ...figures.damping].find(
    (each) => each.name === name && each.source.line === source.line && each.source.file === source.file,
  );
}

const ms = (delayMs: number) => `${formatNumber(delayMs, delayMs < 0.1 ? 1 : 2)} ms`;

const fixedFilter: ConsequenceProvider = (subject) => {
  const { craft, catalogue, name, value } = subject;
  const figures = filtersOf(craft, catalogue);
  const filter = figures && filterOnLine(subject, figures);
  if (!figures || !filter) return [];
  const ordered = filter.order !== null && !fieldOf(value, "order") && name.startsWith("smooth");
  const ownPaths = [`filters.${name}`, ...(ordered ? [`filters.${name}:order`] : []), "sensors.loop-rate"];
  return [
    ...consequence(
      `It delays slow movements by ${ms(filter.delayMs)}, at a loop of ${formatHertz(figures.rateHz)}`,
      ownPaths,
      ms(filter.delayMs),
    ),
    ...passShare(subject, filter, figures.rateHz, ownPaths),
    ...chainDelay(craft, figures),
  ];
};

/** How much passes at the motors' frequency in the hover, or else at twice the cut; for a notch also its range. */
function passShare(
  { craft, catalogue }: ConsequenceSubject,
  filter: Filter,
  rateHz: number,
  ownPaths: readonly string[],
): Consequence[] {
  const { hoverRpm } = motorsOf(craft, catalogue);
  const at = (hz: number, where: string, from: readonly string[]) => {
    const { gain, gainDb } = responseOf([filter.stage], hz, rateHz);
    if (gain > 0.995)
      return consequence(`It lets ${formatHertz(hz)} through unchanged${where}`, [...ownPaths, ...from]);
    const db = gainDb < -60 ? "" : `, ${formatNumber(gainDb)} dB`;
    return consequence(`It lets ${formatPercent(gain)} of ${formatHertz(hz)} through${db}${where}`, [
      ...ownPaths,
      ...from,
    ]);
  };
  const range = filter.widthHz === null ? [] : consequence(notchRange(filter.atHz, filter.widthHz), ownPaths);
  if (hoverRpm !== null && turnHz(hoverRpm) > 0 && turnHz(hoverRpm) < rateHz / 2)
    return [...range, ...at(turnHz(hoverRpm), ": the turns of unloaded motors in the hover", hoverPaths(craft))];
  const doubleHz = filter.atHz * 2;
  return filter.order !== null && doubleHz < rateHz / 2 ? at(doubleHz, ": twice its cut", []) : range;
}

/**
 * The range between the half-power frequencies: their product is the square of the centre, their difference the width.
 */
function notchRange(atHz: number, widthHz: number): string {
  const halfHz = widthHz / 2;
  const lowHz = Math.hypot(atHz, halfHz) - halfHz;
  return `It takes more than half the power from about ${formatHertz(lowHz)} to ${formatHertz(lowHz + widthHz)}`;
}

function chainDelay(craft: Craft, figures: FilterFigures): Consequence[] {
  const { gyro, damping, gyroDelayMs, dampingDelayMs, hoverNotchesDelayMs } = figures;
  if (gyro.length + damping.length < 2 && hoverNotchesDelayMs === null) return [];
  const names = [...new Set([...gyro, ...damping].map(({ name }) => `filters.${name}`))];
  const d = damping.length > 0 ? `, ${ms(dampingDelayMs)} for the damping` : "";
  const notches = hoverNotchesDelayMs === null ? "" : `; the motor notches add ${ms(hoverNotchesDelayMs)} in the hover`;
  return consequence(`The whole chain delays by ${ms(gyroDelayMs)} for the gyro${d}${notches}`, [
    ...names,
    "sensors.loop-rate",
    ...(hoverNotchesDelayMs === null ? [] : ["filters.motor-notches", "frame.motors", ...hoverPaths(craft)]),
  ]);
}

/** A low-pass whose cut moves with the throttle, at its two ends. */
const movingLowPass: ConsequenceProvider = (subject) => {
  const { craft } = subject;
  const figures = filtersOf(subject.craft, subject.catalogue);
  if (!figures) return [];
  const ends = (["idle", "full"] as const).flatMap((field) => {
    const hz = numberOf(fieldOf(subject.value, field), "Hz");
    const stage = hz === null ? null : lowPass(1, hz, figures.rateHz);
    return stage && hz !== null ? { field, hz, delayMs: lowFrequencyDelayMs([stage], figures.rateHz) } : [];
  });
  if (ends.length === 0) return [];
  const delays = ends.map(
    ({ field, hz, delayMs }) => `${ms(delayMs)} at ${field === "idle" ? "idle" : "full throttle"} (${formatHertz(hz)})`,
  );
  return [
    ...consequence(`It delays slow movements by ${joinWithAnd(delays)}`, [
      ...ends.map(({ field }) => `filters.${subject.name}:${field}`),
      "sensors.loop-rate",
    ]),
    ...chainDelay(craft, figures),
  ];
};

const WHY = { cut: "cut", fading: "half let in", weakened: "cut in part", "below-floor": "below the floor" } as const;

const motorNotches: ConsequenceProvider = (subject) => {
  const { craft, catalogue } = subject;
  const harmonics = hoverHarmonicsOf(craft, catalogue);
  const delayMs = filtersOf(craft, catalogue)?.hoverNotchesDelayMs ?? null;
  const ownPaths = ["filters.motor-notches", ...hoverPaths(craft)];
  const sentences: Consequence[] = [];
  if (harmonics) {
    const each = harmonics.flatMap(({ hz, why }) => (why === "beyond-count" ? [] : `${formatHertz(hz)} ${WHY[why]}`));
    const next = harmonics.find(({ why }) => why === "beyond-count");
    const beyond = next ? `; ${formatHertz(next.hz)} is left alone` : "";
    sentences.push(
      ...consequence(`In the hover, by the turns of unloaded motors: ${each.join(", ")}${beyond}`, ownPaths),
    );
  }
  if (delayMs !== null)
    sentences.push(
      ...consequence(
        `All of them together delay slow movements by ${ms(delayMs)} in the hover`,
        [...ownPaths, "frame.motors", "sensors.loop-rate"],
        `${ms(delayMs)} in the hover`,
      ),
    );
  return sentences;
};

/** A smoothing of which only the cut is given: its delay as that of an analogue low-pass of order 1. */
const smoothing: ConsequenceProvider = ({ section, name, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const delayMs = lowPassDelayMs(1, hz);
  const delay = delayMs >= 1000 ? `${formatNumber(delayMs / 1000, 2)} s` : ms(delayMs);
  return consequence(`As a low-pass of order 1 it trails by ${delay}`, [`${section}.${name}`]);
};

export const filterProviders: ConsequenceProviders = {
  "smooth-gyro": fixedFilter,
  "smooth-d": fixedFilter,
  notch: fixedFilter,
  "moving-cut": movingLowPass,
  "moving-cut-d": movingLowPass,
  "motor-notches": motorNotches,
  "smooth-yaw": smoothing,
  "smooth-sticks": smoothing,
  "smooth-throttle": smoothing,
  "smooth-feed": smoothing,
};

export const smoothingProviders: ConsequenceProviders = {
  "volts-smoothing": smoothing,
  "current-smoothing": smoothing,
};
