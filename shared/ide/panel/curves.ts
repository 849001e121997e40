/** Rates and filters of a craft, as the panel draws them: rate by stick, response and delay. */
import { preferredNumbers } from "../../draw/scale.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { logSteps, responseOf, type Stage } from "../../numbers/filters.ts";
import { type Filter, type FilterFigures, filtersOf, stagesOf } from "../../numbers/filters-of.ts";
import { harmonicsAgainst, turnHz } from "../../numbers/motor.ts";
import { motorsOf } from "../../numbers/motor-of.ts";
import { type RateAxis, rateAt, rateCurve, stickAtRate, throttleAt } from "../../numbers/rates.ts";
import { type RatesFigures, ratesOf, secondRatesOf } from "../../numbers/rates-of.ts";
import type { FilterChain, FilterPart, FiltersPicture, RatesAxis, RatesPicture } from "../../protocol/numbers.ts";
import type { LinePlace } from "../../protocol/panel.ts";
import { finite, positive } from "./drawable-figure.ts";

const AXES = ["roll", "pitch", "yaw"] as const;
const CURVE_POINTS = 41;

/** A set of rates; null where the craft has no axis of it. */
export function ratesPictureOf(
  craft: Craft,
  { catalogue }: Pick<Workspace, "catalogue">,
  set: RatesPicture["set"] = "rates",
): RatesPicture | null {
  const figures = set === "rates" ? ratesOf(craft, catalogue) : secondRatesOf(craft, catalogue);
  if (!figures) return null;
  const axes = AXES.flatMap((name) => axisOf(craft, set, name, figures));
  if (axes.length === 0) return null;
  const { throttle } = figures;
  const points = Array.from({ length: CURVE_POINTS }, (_, index) => index / (CURVE_POINTS - 1));
  return {
    set,
    axes,
    throttle: throttle && {
      points: points.map((stick) => [stick, throttleAt(throttle, stick)] as const),
      limit: throttle.limit,
      at: placeOf(craft, set, "throttle-limit") ?? placeOf(craft, set, "throttle-curve"),
    },
  };
}

function axisOf(craft: Craft, set: RatesPicture["set"], name: RatesAxis["name"], figures: RatesFigures): RatesAxis[] {
  const axis: RateAxis | null = figures[name];
  if (!axis) return [];
  const top = figures.topDegS ?? Number.POSITIVE_INFINITY;
  const endDegPerS = Math.min(top, rateAt(axis, 1));
  const points = rateCurve(axis, CURVE_POINTS, top);
  if (points.some(([, degPerS]) => finite(degPerS) === null)) return [];
  return [{ name, points, endDegPerS, halfAtStick: stickAtRate(axis, endDegPerS / 2), at: placeOf(craft, set, name) }];
}

/** The line of a setting; the second set of rates falls back to the first. */
function placeOf(craft: Craft, set: RatesPicture["set"], name: string): LinePlace | null {
  const setting = craft.settings.get(set)?.get(name) ?? craft.settings.get("rates")?.get(name);
  return setting?.source ?? null;
}

const LEAST_HZ = 10;
const MOST_HZ = 1000;
const RESPONSE_POINTS = 120;
/** The lower limit of the response in dB: at the centre of a notch it is minus infinity, which JSON cannot hold. */
const NOTHING_DB = -120;

/** The filters, with motor notches at their frequencies in the hover; null where the craft has no filters. */
export function filtersPictureOf(craft: Craft, { catalogue }: Pick<Workspace, "catalogue">): FiltersPicture | null {
  const figures = filtersOf(craft, catalogue);
  if (!figures || positive(figures.rateHz) === null) return null;
  if (figures.gyro.length === 0 && figures.damping.length === 0 && !figures.motorNotches) return null;
  const { hoverRpm, fullRpm } = motorsOf(craft, catalogue);
  const turns = (rpm: number | null) => positive(rpm === null ? null : turnHz(rpm));
  const [hoverHz, fullHz] = [turns(hoverRpm), turns(fullRpm)];
  const notchesMs = hoverHz === null ? 0 : (finite(figures.hoverNotchesDelayMs) ?? 0);
  const chain = (name: FilterChain["name"], delayMs: number): FilterChain => ({
    name,
    response: responseAlong(figures, name, hoverHz),
    delayMs: delayMs + notchesMs,
  });
  return {
    chains: [
      chain("gyro", figures.gyroDelayMs),
      ...(figures.damping.length > 0 ? [chain("damping", figures.dampingDelayMs)] : []),
    ],
    parts: [
      ...figures.gyro.map((filter) => partOf(filter, "gyro")),
      ...motorPart(craft, figures, hoverHz),
      ...figures.damping.map((filter) => partOf(filter, "damping")),
    ],
    motors: hoverHz === null || fullHz === null ? null : { fromHz: hoverHz, toHz: fullHz },
    notches:
      figures.motorNotches && hoverHz !== null
        ? { hoverHz: notchesAt(figures, hoverHz), fullHz: notchesAt(figures, fullHz) }
        : null,
    leftOut: figures.leftOut,
  };
}

/** The frequencies of the motor notches at a motor speed in turns per second, without notches of depth zero. */
function notchesAt({ motorNotches, motors, rateHz }: FilterFigures, turn: number | null): number[] {
  if (!motorNotches || motors === null || turn === null) return [];
  return harmonicsAgainst(turn, motorNotches, motorNotches.count, null).flatMap(({ hz, depth }) =>
    depth > 0 && hz < rateHz / 2 ? [hz] : [],
  );
}

function responseAlong(figures: FilterFigures, chain: FilterChain["name"], hoverHz: number | null) {
  const { rateHz, motorNotches } = figures;
  const passing = decibelsOf(stagesOf(figures, chain, hoverHz), rateHz);
  const most = Math.min(MOST_HZ, rateHz * 0.49);
  // A notch may be narrower than the distance between points: points at its centre and flanks are added.
  const notches = [
    ...figures.gyro.flatMap(({ order, atHz, widthHz }) => (order === null ? [[atHz, widthHz ?? 0] as const] : [])),
    ...notchesAt(figures, hoverHz).map((hz) => [hz, motorNotches?.widthHz ?? 0] as const),
  ].flatMap(([hz, widthHz]) => [-1, -0.5, -0.25, -0.1, 0, 0.1, 0.25, 0.5, 1].map((share) => hz + share * widthHz));
  return [...new Set([...logSteps(LEAST_HZ, most, RESPONSE_POINTS), ...preferredNumbers(LEAST_HZ, most), ...notches])]
    .filter((hz) => hz >= LEAST_HZ && hz <= most)
    .sort((a, b) => a - b)
    .map((hz) => [hundredths(hz), hundredths(Math.max(NOTHING_DB, passing(hz)))] as const);
}

function partOf({ name, order, atHz, widthHz, delayMs, source }: Filter, chain: FilterChain["name"]): FilterPart {
  const at = `${wholeHz(atHz)} Hz`;
  // A moving filter is computed where it delays most.
  const where = name.startsWith("moving-") ? `${at} at idle` : at;
  const what = order === null ? `${wholeHz(widthHz ?? 0)} Hz wide at ${at}` : `order ${order} at ${where}`;
  return { name, what, chain, delayMs, at: source };
}

function motorPart(
  craft: Craft,
  { motorNotches, hoverNotchesDelayMs }: FilterFigures,
  hoverHz: number | null,
): FilterPart[] {
  if (!motorNotches || hoverNotchesDelayMs === null || hoverHz === null) return [];
  const setting = craft.settings.get("filters")?.get("motor-notches");
  return [
    {
      name: "motor-notches",
      what: `in the hover, from ${wholeHz(hoverHz)} Hz`,
      chain: "gyro",
      delayMs: hoverNotchesDelayMs,
      at: setting?.source ?? null,
    },
  ];
}

/** The response of a chain in dB, the sum over its stages; equal stages, as of motor notches, are computed once. */
function decibelsOf(stages: readonly Stage[], rateHz: number): (hz: number) => number {
  const times = new Map<Stage, number>();
  for (const stage of stages) times.set(stage, (times.get(stage) ?? 0) + 1);
  const alike = [...times].map(([stage, count]) => ({ alone: [stage], count }));
  return (hz) => alike.reduce((sum, { alone, count }) => sum + count * responseOf(alone, hz, rateHz).gainDb, 0);
}

/** Rounds to hundredths, which is finer than can be seen and halves the message. The sum with 0 turns -0 into 0. */
function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

function wholeHz(hz: number): number {
  return Math.round(hz);
}
