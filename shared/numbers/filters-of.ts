/**
 * What a craft says of its filters, as a chain at its loop's rate: `filtersOf` gives the filters with the delay
 * of each, `stagesOf` the chain for a motor speed, to be swept or asked at one frequency.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft, Source } from "../model/craft.ts";
import type { Value } from "../syntax/value.ts";
import { lowFrequencyDelayMs, lowPass, notch, type Stage } from "./filters.ts";
import { harmonicsAgainst, type MotorNotches, turnHz } from "./motor.ts";
import { motorNotchesOf, motorsOf } from "./motor-of.ts";
import { defaultField, fieldOf, numberIn, numberOf, onceFor, settingIn } from "./values.ts";

/** One filter that stands still. */
export interface Filter {
  /** Of the setting, as in `smooth-gyro`. */
  readonly name: string;
  readonly source: Source;
  /** Of a low-pass its cut, of a notch its middle. */
  readonly atHz: number;
  /** 1 or 2 for a low-pass; null for a notch. */
  readonly order: 1 | 2 | null;
  readonly widthHz: number | null;
  readonly stage: Stage;
  /** At low frequency. */
  readonly delayMs: number;
}

export interface FilterFigures {
  readonly rateHz: number;
  /** Over the gyro: `smooth-gyro`, `notch`, and `moving-cut` at its idle end, where it delays most. */
  readonly gyro: readonly Filter[];
  /** Over the damping alone, after those: `smooth-d`, and `moving-cut-d` at its idle end. */
  readonly damping: readonly Filter[];
  readonly motorNotches: MotorNotches | null;
  /** Motors whose notches stand one after another on each axis; null where the frame does not say. */
  readonly motors: number | null;
  /** At low frequency, without the notches that follow the motors. */
  readonly gyroDelayMs: number;
  readonly dampingDelayMs: number;
  /**
   * Delay at low frequency of the notches that follow the motors, in the hover; null where that is not known.
   * The speed is that of unloaded motors: under load the notches stand lower, and delay somewhat more.
   */
  readonly hoverNotchesDelayMs: number | null;
  /** Settings that are said and not in the chain: they lie beyond half the loop's rate, have a fault, or place themselves. */
  readonly leftOut: readonly string[];
}

/** The craft's filters; null where the loop's rate is not said. All of them are reckoned at that rate. */
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

/** The whole chain to the gyro's user, or on to the damping; with the motors' notches where their turns a second are given. */
export function stagesOf(figures: FilterFigures, path: "gyro" | "damping", motorTurnHz: number | null): Stage[] {
  const fixed = path === "gyro" ? figures.gyro : [...figures.gyro, ...figures.damping];
  const { motorNotches, motors, rateHz } = figures;
  const moving =
    motorNotches && motors !== null && motorTurnHz !== null
      ? motorStages(motorNotches, motors, motorTurnHz, rateHz)
      : [];
  return [...fixed.map(({ stage }) => stage), ...moving];
}

/** The notches of every motor, all turning alike. One that would lie beyond half the loop's rate does not exist. */
export function motorStages(notches: MotorNotches, motors: number, motorTurnHz: number, rateHz: number): Stage[] {
  const one = harmonicsAgainst(motorTurnHz, notches, notches.count, null).flatMap(({ hz, depth }) =>
    depth > 0 ? (notch(hz, notches.widthHz, rateHz, depth) ?? []) : [],
  );
  return Array.from({ length: motors }, () => one).flat();
}

/** Null for what has no number: notches of motors that hardly turn, or at a rate that no board has. */
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
    // At a rate that no board has, a filter may be too slow or too narrow for doubles to tell it from none.
    if (made && Number.isFinite(delayMs)) return { name, source, ...made, delayMs };
    leftOut.push(name);
    return [];
  });
}

/** A notch where there is a middle, else a low-pass; one that moves stands at its idle end. */
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
