/** What follows for the filters: delay, how much passes, and the sum of the chain. */

import { listed } from "../../draw/words.ts";
import { lowFrequencyDelayMs, lowPass, lowPassDelayMs, responseOf } from "../../numbers/filters.ts";
import { type Filter, type FilterFigures, filtersOf } from "../../numbers/filters-of.ts";
import { turnHz } from "../../numbers/motor.ts";
import { hoverHarmonicsOf, motorsOf } from "../../numbers/motor-of.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import { figure, hertz, percent } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  says,
} from "./provider.ts";

const HOVER = ["frame.hover-throttle", "motors.kv", "pack.cells", "pack.chemistry"];

/** One filter that stands still: of several of its name the one on the line asked about. */
function oneOf({ source, name }: ConsequenceSubject, figures: FilterFigures): Filter | undefined {
  return [...figures.gyro, ...figures.damping].find(
    (each) => each.name === name && each.source.line === source.line && each.source.file === source.file,
  );
}

const ms = (delayMs: number) => `${figure(delayMs, delayMs < 0.1 ? 1 : 2)} ms`;

const still: ConsequenceProvider = (subject) => {
  const { craft, catalogue, name, value } = subject;
  const figures = filtersOf(craft, catalogue);
  const filter = figures && oneOf(subject, figures);
  if (!figures || !filter) return [];
  const ordered = filter.order !== null && !fieldOf(value, "order") && name.startsWith("smooth");
  const own = [`filters.${name}`, ...(ordered ? [`filters.${name}:order`] : []), "sensors.loop-rate"];
  return [
    ...says(
      `It delays slow movements by ${ms(filter.delayMs)}, at a loop of ${hertz(figures.rateHz)}`,
      own,
      ms(filter.delayMs),
    ),
    ...passes(subject, filter, figures.rateHz, own),
    ...sum(figures),
  ];
};

/** How much passes where the motors shake in the hover, or else at twice the cut; of a notch also its reach. */
function passes(
  { craft, catalogue }: ConsequenceSubject,
  filter: Filter,
  rateHz: number,
  own: readonly string[],
): Consequence[] {
  const { hoverRpm } = motorsOf(craft, catalogue);
  const at = (hz: number, where: string, from: readonly string[]) => {
    const { gain, gainDb } = responseOf([filter.stage], hz, rateHz);
    if (gain > 0.995) return says(`It lets ${hertz(hz)} through as it comes${where}`, [...own, ...from]);
    const db = gainDb < -60 ? "" : `, ${figure(gainDb)} dB`;
    return says(`It lets ${percent(gain)} of ${hertz(hz)} through${db}${where}`, [...own, ...from]);
  };
  const reach = filter.widthHz === null ? [] : says(reachOf(filter.atHz, filter.widthHz), own);
  if (hoverRpm !== null && turnHz(hoverRpm) > 0 && turnHz(hoverRpm) < rateHz / 2)
    return [...reach, ...at(turnHz(hoverRpm), ": the turns of unloaded motors in the hover", HOVER)];
  const doubleHz = filter.atHz * 2;
  return filter.order !== null && doubleHz < rateHz / 2 ? at(doubleHz, ": twice its cut", []) : reach;
}

/** The frequencies that pass with half their power: their product is the square of the middle, their distance the width. */
function reachOf(atHz: number, widthHz: number): string {
  const halfHz = widthHz / 2;
  const lowHz = Math.hypot(atHz, halfHz) - halfHz;
  return `It takes more than half the power from about ${hertz(lowHz)} to ${hertz(lowHz + widthHz)}`;
}

function sum(figures: FilterFigures): Consequence[] {
  const { gyro, damping, gyroDelayMs, dampingDelayMs, hoverNotchesDelayMs } = figures;
  if (gyro.length + damping.length < 2 && hoverNotchesDelayMs === null) return [];
  const names = [...new Set([...gyro, ...damping].map(({ name }) => `filters.${name}`))];
  const d = damping.length > 0 ? `, ${ms(dampingDelayMs)} for the damping` : "";
  const notches = hoverNotchesDelayMs === null ? "" : `; the motor notches add ${ms(hoverNotchesDelayMs)} in the hover`;
  return says(`The whole chain delays by ${ms(gyroDelayMs)} for the gyro${d}${notches}`, [
    ...names,
    "sensors.loop-rate",
    ...(hoverNotchesDelayMs === null ? [] : ["filters.motor-notches", "frame.motors", ...HOVER]),
  ]);
}

/** A low-pass that moves with the throttle, between its two ends. */
const moving: ConsequenceProvider = (subject) => {
  const figures = filtersOf(subject.craft, subject.catalogue);
  if (!figures) return [];
  const ends = (["idle", "full"] as const).flatMap((field) => {
    const hz = numberOf(fieldOf(subject.value, field), "Hz");
    const stage = hz === null ? null : lowPass(1, hz, figures.rateHz);
    return stage && hz !== null ? { field, hz, delayMs: lowFrequencyDelayMs([stage], figures.rateHz) } : [];
  });
  if (ends.length === 0) return [];
  const told = ends.map(
    ({ field, hz, delayMs }) => `${ms(delayMs)} at ${field === "idle" ? "idle" : "full throttle"} (${hertz(hz)})`,
  );
  return [
    ...says(`It delays slow movements by ${listed(told)}`, [
      ...ends.map(({ field }) => `filters.${subject.name}:${field}`),
      "sensors.loop-rate",
    ]),
    ...sum(figures),
  ];
};

const WHY = { cut: "cut", fading: "half let in", weakened: "cut in part", "below-floor": "below the floor" } as const;

const following: ConsequenceProvider = (subject) => {
  const { craft, catalogue } = subject;
  const harmonics = hoverHarmonicsOf(craft, catalogue);
  const delayMs = filtersOf(craft, catalogue)?.hoverNotchesDelayMs ?? null;
  const own = ["filters.motor-notches", ...HOVER];
  const told: Consequence[] = [];
  if (harmonics) {
    const each = harmonics.flatMap(({ hz, why }) => (why === "beyond-count" ? [] : `${hertz(hz)} ${WHY[why]}`));
    const next = harmonics.find(({ why }) => why === "beyond-count");
    const beyond = next ? `; ${hertz(next.hz)} is left alone` : "";
    told.push(...says(`In the hover, by the turns of unloaded motors: ${each.join(", ")}${beyond}`, own));
  }
  if (delayMs !== null)
    told.push(
      ...says(
        `All of them together delay slow movements by ${ms(delayMs)} in the hover`,
        [...own, "frame.motors", "sensors.loop-rate"],
        `${ms(delayMs)} in the hover`,
      ),
    );
  return told;
};

/** A smoothing of which only the cut is said: its delay as that of an analogue low-pass of order 1. */
const plain: ConsequenceProvider = ({ section, name, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const delayMs = lowPassDelayMs(1, hz);
  const told = delayMs >= 1000 ? `${figure(delayMs / 1000, 2)} s` : ms(delayMs);
  return says(`As a low-pass of order 1 it trails by ${told}`, [`${section}.${name}`]);
};

export const filterProviders: ConsequenceProviders = {
  "smooth-gyro": still,
  "smooth-d": still,
  notch: still,
  "moving-cut": moving,
  "moving-cut-d": moving,
  "motor-notches": following,
  "smooth-yaw": plain,
  "smooth-sticks": plain,
  "smooth-throttle": plain,
  "smooth-feed": plain,
};

export const smoothingProviders: ConsequenceProviders = { "volts-smoothing": plain, "current-smoothing": plain };
