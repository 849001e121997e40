/** A board's curve as ours: slope, end and bend by least squares over the stick. */
import { rateAt } from "../../numbers/rates.ts";
import { curveOf } from "./evaluate.ts";
import { fitLeastSquares } from "./fit.ts";
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
export const FIT_PLACES = 201;
export const COMPARED_PLACES = 2001;
/** The largest deviation, as a share of the highest rate, with which a curve still is the other. */
export const MOST_DEVIATION = 0.05;
const [LEAST_BEND, MOST_BEND] = [1, 10];

/**
 * The rates that a board's formula gives, in deg/s, as our curve: slope and end to 1 deg/s, bend to 0.01. For a given
 * bend slope and end follow from the normal equations of least squares, so the best of many bends is near the best of
 * all; from there the three are fitted together.
 */
export function ourCurveOf(formula: Formula, slots: ReadonlyMap<string, number>): OurCurve | { readonly why: string } {
  const curve = curveOf(formula, [...slots.keys()]);
  const values = [...slots.values()];
  const sticks = stickPlaces(FIT_PLACES);
  const rates = sticks.map((stick) => curve(stick, values));
  if (rates.some((rate) => !Number.isFinite(rate)))
    return { why: "the curve has no value at every place of the stick" };
  const fit = fitAll(bestOf(range(LEAST_BEND, MOST_BEND, 0.25), sticks, rates), sticks, rates);
  const end = Math.round(steady(fit.end));
  const bend = Number(steady(fit.bend).toFixed(2));
  // With a bend of 1 it is straight to the end, whatever the slope.
  const slope = bend === 1 ? end : Math.round(steady(fit.slope));
  const ours = { slope, end, bend: slope === end ? null : bend };
  const axis = { slopeDegS: slope, endDegS: end, bend };
  let [deviationDegS, topDegS] = [0, 0];
  for (const stick of stickPlaces(COMPARED_PLACES)) {
    const rate = curve(stick, values);
    topDegS = Math.max(topDegS, Math.abs(rate));
    deviationDegS = Math.max(deviationDegS, Math.abs(rate - rateAt(axis, stick)));
  }
  if (!(deviationDegS <= MOST_DEVIATION * topDegS))
    return { why: `no curve of ours comes nearer to the board's than ${deviationDegS.toFixed(1)} deg/s` };
  // What is left of a double's rounding is no deviation.
  return { ...ours, deviationDegS: Number(deviationDegS.toFixed(3)) };
}

/** Even places of the stick, from end to end. */
export function stickPlaces(count: number): number[] {
  return Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
}

/** What a double's last digits say does not decide between two figures. */
function steady(value: number): number {
  return Number(value.toPrecision(9));
}

function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
}

/** Slope, end and bend together, from a start near the best. */
function fitAll(start: Fit, sticks: readonly number[], rates: readonly number[]): Fit {
  const low = [SLOPE_LIMITS[0], END_LIMITS[0], LEAST_BEND];
  const high = [SLOPE_LIMITS[1], END_LIMITS[1], MOST_BEND];
  const { parameters } = fitLeastSquares(
    ([slopeDegS = 0, endDegS = 0, bend = 0], out) => {
      for (const [i, stick] of sticks.entries()) out[i] = rateAt({ slopeDegS, endDegS, bend }, stick) - rates[i]!;
    },
    sticks.length,
    [start.slope, start.end, start.bend],
    { low, high, small: 0.1 },
  );
  const [slope = 0, end = 0, bend = 0] = parameters;
  return { slope, end, bend };
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

/** The limits of our slope and end in deg/s, both included, as in the catalogue's section of rates. */
export const SLOPE_LIMITS = [0, 2000] as const;
export const END_LIMITS = [10, 4000] as const;

/**
 * Slope and end for a bend, within their limits: rate = slope · (x − s|x|^bend) + end · s|x|^bend is linear in both. The
 * squares are convex, so where their least lies beyond a limit, the least within stands on one.
 */
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
  const squares = ({ slope, end }: { slope: number; end: number }): number =>
    aa * slope * slope + bb * end * end + 2 * (ab * slope * end - ay * slope - by * end);
  const endFor = (slope: number) => within((by - ab * slope) / bb, END_LIMITS);
  // A bend of 1 is a straight line, of which the slope is the end.
  if (Math.abs(determinant) < 1e-12 * bb * bb) {
    const end = endFor(0);
    return { slope: within(end, SLOPE_LIMITS), end };
  }
  const [slope, end] = [(ay * bb - by * ab) / determinant, (by * aa - ay * ab) / determinant];
  if (slope === within(slope, SLOPE_LIMITS) && end === within(end, END_LIMITS)) return { slope, end };
  const edges = [
    ...SLOPE_LIMITS.map((slope) => ({ slope, end: endFor(slope) })),
    ...END_LIMITS.map((end) => ({ slope: within((ay - ab * end) / aa, SLOPE_LIMITS), end })),
  ];
  return edges.reduce((best, edge) => (squares(edge) < squares(best) ? edge : best));
}

function within(value: number, [least, most]: readonly [number, number]): number {
  return Math.min(most, Math.max(least, value));
}
