/**
 * The filters of a craft, at its loop rate: `filtersOf` gives the filters with the delay of each, `stagesOf` the
 * chain of stages at a motor speed, for `responseOf`.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft, Source } from "../model/craft.ts";
import type { Value } from "../syntax/value.ts";
import { lowFrequencyDelayMs, lowPass, notch, type Stage } from "./filters.ts";
import { harmonicsAgainst, type MotorNotches, turnHz } from "./motor.ts";
import { motorNotchesOf, motorsOf } from "./motor-of.ts";
import { defaultField, fieldOf, numberIn, numberOf, onceFor, settingIn } from "./values.ts";

/** One filter with a fixed frequency. */
export interface Filter {
  /** Name of its setting, such as `smooth-gyro`. */
  readonly name: string;
  readonly source: Source;
  /** Cutoff of a low-pass, centre of a notch. */
  readonly atHz: number;
  /** 1 or 2 for a low-pass; null for a notch. */
  readonly order: 1 | 2 | null;
  readonly widthHz: number | null;
  readonly stage: Stage;
  /** Delay at low frequency. */
  readonly delayMs: number;
}

export interface FilterFigures {
  readonly rateHz: number;
  /** On the gyro signal: `smooth-gyro`, `notch`, and `moving-cut` at its idle end, where its delay is greatest. */
  readonly gyro: readonly Filter[];
  /** On the damping only, after those: `smooth-d`, and `moving-cut-d` at its idle end. */
  readonly damping: readonly Filter[];
  readonly motorNotches: MotorNotches | null;
  /** The number of motors, whose notches are in series on each axis; null if the frame does not set it. */
  readonly motors: number | null;
  /** At low frequency, without the notches that follow the motors. */
  readonly gyroDelayMs: number;
  readonly dampingDelayMs: number;
  /**
   * Delay at low frequency of the notches that follow the motors, in the hover; null if it is not known.
   * The speed is that of unloaded motors: under load the notches are lower, and their delay somewhat greater.
   */
  readonly hoverNotchesDelayMs: number | null;
  /**
   * Settings that are set and not in the chain: beyond half the loop rate, with a fault, or of a frequency
   * only known in flight.
   */
  readonly leftOut: readonly string[];
}

/** The craft's filters, all computed at its loop rate; null if that rate is not set. */
export const filtersOf = onceFor((craft, catalogue): FilterFigures | null => {
  const rateKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  if (rateKhz === null) return null;
  const rateHz = rateKhz * 1000;
  const leftOut: string[] = [];
  const read = (name: string) => readFilters(craft, catalogue, name, rateHz, leftOut);
  const gyro = [...read("smooth-gyro"), ...read("moving-cut"), ...read("notch")];
  const damping = [...read("smooth-d"), ...read("moving-cut-d")];
  const motorNotches = motorNotchesOf(craft, catalogue);
  const { motors, hoverRpm } = motorsOf(craft, catalogue);
  if (settingIn(craft, "filters", "motor-notches") && (!motorNotches || motors === null)) leftOut.push("motor-notches");
  if (settingIn(craft, "filters", "tracking-notches")) leftOut.push("tracking-notches");
  const gyroDelayMs = totalDelayMs(gyro);
  return {
    rateHz,
    gyro,
    damping,
    motorNotches,
    motors,
    gyroDelayMs,
    dampingDelayMs: gyroDelayMs + totalDelayMs(damping),
    hoverNotchesDelayMs:
      motorNotches && motors !== null && hoverRpm !== null
        ? finiteOrNull(lowFrequencyDelayMs(motorStages(motorNotches, motors, turnHz(hoverRpm), rateHz), rateHz))
        : null,
    leftOut: [...new Set(leftOut)],
  };
});

/** The stages on the gyro signal, or also those on the damping; with the motors' notches if their speed is given. */
export function stagesOf(figures: FilterFigures, path: "gyro" | "damping", motorTurnHz: number | null): Stage[] {
  const fixed = path === "gyro" ? figures.gyro : [...figures.gyro, ...figures.damping];
  const { motorNotches, motors, rateHz } = figures;
  const moving =
    motorNotches && motors !== null && motorTurnHz !== null
      ? motorStages(motorNotches, motors, motorTurnHz, rateHz)
      : [];
  return [...fixed.map(({ stage }) => stage), ...moving];
}

/** The notches of all motors at one speed. A notch beyond half the loop rate is left out. */
export function motorStages(notches: MotorNotches, motors: number, motorTurnHz: number, rateHz: number): Stage[] {
  const one = harmonicsAgainst(motorTurnHz, notches, notches.count, null).flatMap(({ hz, depth }) =>
    depth > 0 ? (notch(hz, notches.widthHz, rateHz, depth) ?? []) : [],
  );
  return Array.from({ length: motors }, () => one).flat();
}

/** Null for an infinite or undefined delay: notches of motors that hardly turn, or at a rate that no board has. */
function finiteOrNull(ms: number): number | null {
  return Number.isFinite(ms) ? ms : null;
}

function totalDelayMs(filters: readonly Filter[]): number {
  return filters.reduce((total, { delayMs }) => total + delayMs, 0);
}

function readFilters(craft: Craft, catalogue: Catalogue, name: string, rateHz: number, leftOut: string[]): Filter[] {
  const setting = settingIn(craft, "filters", name);
  if (!setting) return [];
  const usualOrder = defaultField(catalogue.setting("filters", name), "order", "") ?? 1;
  return (setting.items ?? [setting]).flatMap(({ value, source }) => {
    const made = value && makeFilter(value, rateHz, usualOrder);
    const delayMs = made ? lowFrequencyDelayMs([made.stage], rateHz) : Number.NaN;
    // At a rate that no board has, a filter may be too slow or too narrow for double precision.
    if (made && Number.isFinite(delayMs)) return { name, source, ...made, delayMs };
    leftOut.push(name);
    return [];
  });
}

/**
 * A notch if the value has a centre, else a low-pass; a moving one at its idle end. Null if it cannot exist
 * at this rate.
 */
function makeFilter(
  value: Value,
  rateHz: number,
  usualOrder: number,
): Pick<Filter, "atHz" | "order" | "widthHz" | "stage"> | null {
  const field = (name: string, unit: string) => numberOf(fieldOf(value, name), unit);
  const [middleHz, widthHz] = [field("at", "Hz"), field("width", "Hz")];
  if (middleHz !== null) {
    const stage = widthHz === null ? null : notch(middleHz, widthHz, rateHz);
    return stage && { atHz: middleHz, order: null, widthHz, stage };
  }
  const cutHz = field("cut", "Hz") ?? field("idle", "Hz");
  const order = (field("order", "") ?? usualOrder) === 2 ? 2 : 1;
  const stage = cutHz === null ? null : lowPass(order, cutHz, rateHz);
  return stage && cutHz !== null ? { atHz: cutHz, order, widthHz: null, stage } : null;
}
