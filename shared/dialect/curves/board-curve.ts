/** Our curve as a board's: the values of its slots by least squares over the stick. */
import { highestRate, type RateAxis, rateAt } from "../../numbers/rates.ts";
import type { Held } from "../dialect.ts";
import type { CurveSlot } from "./curve-slots.ts";
import { COMPARED_PLACES, FIT_PLACES, MOST_DEVIATION, stickPlaces } from "./curves.ts";
import { curveOf } from "./evaluate.ts";
import type { Formula } from "./formula-tree.ts";
import { bestWholeSteps, mayReach, type StepSearch, stepsWith, type WholeSteps } from "./whole-steps.ts";

export interface BoardCurve {
  /** What each slot holds, by name. */
  readonly values: ReadonlyMap<string, Held>;
  /** The largest difference over the stick. */
  readonly deviationDegS: number;
}

/**
 * What the slots of a board's formula must hold for our rates. Of equal fits the one with the base's values, then with
 * the slots' defaults, then with the lowest. A reason where it stays over 5 % of the highest rate away from ours.
 */
export function boardCurveOf(
  formula: Formula,
  slots: readonly CurveSlot[],
  axis: RateAxis,
): BoardCurve | { readonly why: string } {
  const curve = curveOf(
    formula,
    slots.map(({ name }) => name),
  );
  const sticks = stickPlaces(FIT_PLACES);
  const rates = sticks.map((stick) => rateAt(axis, stick));
  const values = new Array<number>(slots.length);
  const search: StepSearch = {
    residuals: (steps, out) => {
      for (let i = 0; i < slots.length; i++) values[i] = slots[i]!.worth(steps[i]!);
      for (let place = 0; place < sticks.length; place++) out[place] = curve(sticks[place]!, values) - rates[place]!;
    },
    count: sticks.length,
    ranges: slots.map(({ least, most, unset }) => ({ least, most, never: unset })),
    tolerance: 1e-13 * rates.reduce((sum, rate) => sum + rate * rate, 0),
  };
  const best = bestWholeSteps(search, startsFor(slots));
  if (!best) return { why: "the board's curve has no value at every place of the stick" };
  const deviationOf = (steps: readonly number[]): number => {
    const worths = steps.map((step, i) => slots[i]!.worth(step));
    const off = stickPlaces(COMPARED_PLACES).map((stick) => Math.abs(curve(stick, worths) - rateAt(axis, stick)));
    return Math.max(...off);
  };
  const isNear = (steps: readonly number[]) => deviationOf(steps) <= MOST_DEVIATION * highestRate(axis);
  // What is far off need not be chosen among its equals.
  const { steps } = isNear(best.steps) ? preferred(search, slots, best) : best;
  const deviationDegS = deviationOf(steps);
  if (!isNear(steps))
    return { why: `no curve of the board comes nearer to ours than ${deviationDegS.toFixed(1)} deg/s` };
  return {
    values: new Map(slots.map((slot, i) => [slot.name, slot.held(steps[i]!)])),
    // What is left of a double's rounding is no deviation.
    deviationDegS: Number(deviationDegS.toFixed(3)),
  };
}

/** Shares of a slot's range at which fits begin: halves and thirds in turn, so that no two slots go along. */
const SHARES = [0.5, 0.1, 0.9, 0.3, 0.7, 0.05, 0.6, 0.2];

function startsFor(slots: readonly CurveSlot[]): number[][] {
  const spread = SHARES.map((_, start) =>
    slots.map((slot, i) => stepAt(slot, SHARES[(start + 3 * i) % SHARES.length]!)),
  );
  const known = [
    slots.map((slot, i) => slot.base ?? slot.default ?? spread[0]![i]!),
    slots.map((slot, i) => slot.default ?? spread[0]![i]!),
  ];
  return [...known, ...spread];
}

/** A step at a share of the range; without bounds from a tenth to a thousand in the formula. */
function stepAt({ least, most, worth }: CurveSlot, share: number): number {
  if (Number.isFinite(least) && Number.isFinite(most)) return least + share * (most - least);
  const each = worth(1) - worth(0);
  const step = (10 ** (4 * share - 1) - worth(0)) / each;
  return Number.isFinite(step) ? Math.min(most, Math.max(least, step)) : 1;
}

/** Of steps that fit equally well the base's, then the defaults, then the lowest, slot by slot. */
function preferred(search: StepSearch, slots: readonly CurveSlot[], best: WholeSteps): WholeSteps {
  let chosen = best;
  const fixed = new Map<number, number>();
  const tryStep = (i: number, step: number): boolean => {
    if (chosen.steps[i] !== step) {
      const found = stepsWith(search, new Map(fixed).set(i, step), chosen.steps, best.squares);
      if (!found) return false;
      chosen = found;
    }
    fixed.set(i, step);
    return true;
  };
  for (const of of ["base", "default"] as const)
    for (const [i, slot] of slots.entries()) {
      const step = slot[of];
      if (!fixed.has(i) && step !== null && step !== slot.unset) tryStep(i, step);
    }
  for (const [i, slot] of slots.entries())
    if (!fixed.has(i))
      for (const step of lowerSteps(search, fixed, slot, i, chosen, best.squares)) if (tryStep(i, step)) break;
  return chosen;
}

/** Steps that a lowest equal fit may take, from the lowest on. */
const MOST_TRIED = 40;

/**
 * The steps below the chosen one with which a fit may be as good, lowest first, then the chosen one. They are taken to
 * lie together; over 40 of them the rest is not looked at.
 */
function lowerSteps(
  search: StepSearch,
  fixed: ReadonlyMap<number, number>,
  { least, unset }: CurveSlot,
  i: number,
  { steps }: WholeSteps,
  squares: number,
): number[] {
  const chosen = steps[i]!;
  const reaches = (step: number): boolean => mayReach(search, new Map(fixed).set(i, step), steps, squares);
  if (chosen <= least || !reaches(chosen - 1)) return [chosen];
  // Without a bound below there is no lowest: nought is as good as any.
  let low = Number.isFinite(least) ? least : Math.min(0, chosen);
  if (!reaches(low))
    for (let high = chosen - 1; high - low > 1; ) {
      const middle = Math.floor((low + high) / 2);
      if (reaches(middle)) high = middle;
      else low = middle;
      if (high - low <= 1) low = high;
    }
  const tried = Array.from({ length: Math.min(MOST_TRIED, chosen - low) }, (_, k) => low + k);
  return [...tried.filter((step) => step !== unset), chosen];
}
