/** A board's curve as ours: slope, end and bend by least squares over the stick. */
import { rateAt } from "../../numbers/rates.ts";
import { evaluate } from "./evaluate.ts";
import type { Formula } from "./formula-tree.ts";

/** Our curve nearest to a board's; `bend` null for a straight line. */
export interface OurCurve {
  readonly slope: number;
  readonly end: number;
  readonly bend: number | null;
  /** The largest difference over the stick. */
  readonly deviationDegS: number;
}

/** Even places of the stick over which a curve is fitted, and over which it is compared. */
const FIT_PLACES = 201;
const COMPARED_PLACES = 2001;
/** The largest deviation, as a share of the highest rate, with which a curve still is the other. */
const MOST_DEVIATION = 0.05;
const [LEAST_BEND, MOST_BEND] = [1, 10];

/**
 * The rates that a board's formula gives, in deg/s, as our curve: slope and end to 1 deg/s, bend to 0.01. For a given
 * bend slope and end follow from the normal equations of least squares; the bend is sought in steps.
 */
export function ourCurveOf(formula: Formula, slots: ReadonlyMap<string, number>): OurCurve | { readonly why: string } {
  const sticks = places(FIT_PLACES);
  const rates = sticks.map((stick) => evaluate(formula, stick, slots));
  if (rates.some((rate) => !Number.isFinite(rate)))
    return { why: "the curve has no value at every place of the stick" };
  const coarse = bestOf(range(LEAST_BEND, MOST_BEND, 0.25), sticks, rates);
  const near = range(Math.max(LEAST_BEND, coarse.bend - 0.25), Math.min(MOST_BEND, coarse.bend + 0.25), 0.01);
  const { slope, end, bend } = bestOf(near, sticks, rates);
  const isStraight = Math.round(slope) === Math.round(end);
  const ours = { slope: Math.round(slope), end: Math.round(end), bend: isStraight ? null : bend };
  const axis = { slopeDegS: ours.slope, endDegS: ours.end, bend };
  let [deviationDegS, topDegS] = [0, 0];
  for (const stick of places(COMPARED_PLACES)) {
    const rate = evaluate(formula, stick, slots);
    topDegS = Math.max(topDegS, Math.abs(rate));
    deviationDegS = Math.max(deviationDegS, Math.abs(rate - rateAt(axis, stick)));
  }
  if (!(deviationDegS <= MOST_DEVIATION * topDegS))
    return { why: `no curve of ours comes nearer to the board's than ${deviationDegS.toFixed(1)} deg/s` };
  // What is left of a double's rounding is no deviation.
  return { ...ours, deviationDegS: Number(deviationDegS.toFixed(3)) };
}

function places(count: number): number[] {
  return Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
}

/** Bends to 0.01. */
function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => Number((from + i * step).toFixed(2)));
}

interface Fit {
  readonly slope: number;
  readonly end: number;
  readonly bend: number;
}

/** The bend with the least sum of squares; of equal ones the lowest. */
function bestOf(bends: readonly number[], sticks: readonly number[], rates: readonly number[]): Fit {
  let best: (Fit & { squares: number }) | null = null;
  for (const bend of bends) {
    const fit = { ...fitAt(bend, sticks, rates), bend };
    const axis = { slopeDegS: fit.slope, endDegS: fit.end, bend };
    const squares = sticks.reduce((sum, stick, i) => sum + (rateAt(axis, stick) - rates[i]!) ** 2, 0);
    if (!best || squares < best.squares - 1e-9 * (1 + best.squares)) best = { ...fit, squares };
  }
  return best!;
}

/** Slope and end for a bend: rate = slope · (x − s|x|^bend) + end · s|x|^bend is linear in both. */
function fitAt(bend: number, sticks: readonly number[], rates: readonly number[]): { slope: number; end: number } {
  let [aa, ab, bb, ay, by] = [0, 0, 0, 0, 0];
  sticks.forEach((stick, i) => {
    const b = Math.sign(stick) * Math.abs(stick) ** bend;
    const a = stick - b;
    aa += a * a;
    ab += a * b;
    bb += b * b;
    ay += a * rates[i]!;
    by += b * rates[i]!;
  });
  const determinant = aa * bb - ab * ab;
  // A bend of 1 is a straight line, of which the slope is the end.
  if (Math.abs(determinant) < 1e-12 * bb * bb) return { slope: by / bb, end: by / bb };
  return { slope: (ay * bb - by * ab) / determinant, end: (by * aa - ay * ab) / determinant };
}
