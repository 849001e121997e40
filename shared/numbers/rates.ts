/**
 * Rates: from a stick to a turn rate and to throttle. Pure arithmetic; `rates-of.ts` reads a craft's
 * figures, and `sticks.ts` has the way from a pulse to a throttle.
 *
 * - `rateAt`, `stickAtRate`, `highestRate`, `rateCurve`: one axis
 * - `turnS`: how long one turn takes
 * - `throttleAt`, `stickAtThrottle`: curve, softness and limit
 */

/** One axis: deg/s at the middle's slope and at the end, and the exponent of the bend between them. */
export interface RateAxis {
  readonly slopeDegS: number;
  readonly endDegS: number;
  readonly bend: number;
}

/**
 * Turn rate in deg/s of a stick from -1 to 1: slope·x + (end − slope)·sign(x)·|x|^bend, which for a bend
 * of 3 is the cubic of common radio-control practice. A stick beyond its end counts as at its end.
 */
export function rateAt({ slopeDegS, endDegS, bend }: RateAxis, stick: number): number {
  const size = Math.min(1, Math.abs(stick));
  return Math.sign(stick) * (slopeDegS * size + (endDegS - slopeDegS) * size ** bend);
}

/**
 * Where the curve is highest between the middle and the end: at the end, unless the slope is so much
 * steeper than the end that the curve comes back down. That place is where its derivative is nought.
 */
export function stickAtHighestRate({ slopeDegS, endDegS, bend }: RateAxis): number {
  if (bend <= 1 || slopeDegS * (bend - 1) <= endDegS * bend) return 1;
  return (slopeDegS / (bend * (slopeDegS - endDegS))) ** (1 / (bend - 1));
}

/** The highest rate that the stick can ask for. */
export function highestRate(axis: RateAxis): number {
  return rateAt(axis, stickAtHighestRate(axis));
}

/** The smallest stick (0 to 1) that gives a rate, by halving; null for a rate that the curve never reaches. */
export function stickAtRate(axis: RateAxis, degS: number): number | null {
  const top = stickAtHighestRate(axis);
  const highest = rateAt(axis, top);
  // The curve is flat about its highest place, where rounding may lift a neighbour above it.
  if (degS < 0 || degS > highest * (1 + 1e-12)) return null;
  const target = Math.min(degS, highest);
  return bisect((stick) => rateAt(axis, stick) < target, top);
}

/** The stick at which half the end's rate is reached: 0.5 for a straight line, later the more the curve bends. */
export function halfRateStick(axis: RateAxis): number | null {
  return stickAtRate(axis, axis.endDegS / 2);
}

/** Stick and rate at `points` evenly spaced places from the middle to the end, capped at `topDegS` if there is one. */
export function rateCurve(
  axis: RateAxis,
  points: number,
  topDegS = Number.POSITIVE_INFINITY,
): [stick: number, degS: number][] {
  return Array.from({ length: points }, (_, i) => {
    const stick = i / (points - 1);
    return [stick, Math.min(topDegS, rateAt(axis, stick))];
  });
}

/** Seconds for one whole turn at a rate: 360 deg over it. */
export function turnS(degS: number): number {
  return 360 / degS;
}

export interface Throttle {
  /** Throttle from 0 to 1 at evenly spaced places of the stick; a straight line where there is none. */
  readonly curve: readonly number[] | null;
  /** Softness from 0 to 1 about a place of the stick; null where nothing is softened. */
  readonly soft: { readonly share: number; readonly about: number } | null;
  readonly limit: number;
  readonly limitBy: "scaling" | "clipping";
}

/**
 * Throttle from 0 to 1 of a stick from 0 to 1: the curve's points joined by straight lines, or the soft
 * cubic, then the limit. Scaling multiplies by the limit; clipping cuts off above it.
 */
export function throttleAt(throttle: Throttle, stick: number): number {
  const at = Math.min(1, Math.max(0, stick));
  const requested = throttle.curve
    ? interpolate(throttle.curve, at)
    : throttle.soft
      ? softenedThrottle(throttle.soft, at)
      : at;
  return throttle.limitBy === "scaling" ? requested * throttle.limit : Math.min(requested, throttle.limit);
}

/** The smallest stick (0 to 1) that gives a throttle, by halving; null where full stick gives less. */
export function stickAtThrottle(throttle: Throttle, target: number): number | null {
  if (target < 0 || target > throttleAt(throttle, 1) + 1e-12) return null;
  return bisect((stick) => throttleAt(throttle, stick) < target - 1e-12, 1);
}

function interpolate(points: readonly number[], at: number): number {
  const place = at * (points.length - 1);
  const left = Math.min(Math.floor(place), points.length - 2);
  const from = points[left]!;
  return from + (points[left + 1]! - from) * (place - left);
}

/**
 * The cubic of common radio-control practice on either side of one place: there the curve is flatter
 * by the share, and it meets the straight line at that place and at both ends.
 */
function softenedThrottle({ share, about }: { readonly share: number; readonly about: number }, at: number): number {
  const room = at < about ? about : 1 - about;
  if (room === 0) return at;
  const away = (at - about) / room;
  return about + room * ((1 - share) * away + share * away ** 3);
}

/** The edge between 0 and `top` below which `short` holds; a double has no more than 53 bits to halve. */
function bisect(isBelow: (at: number) => boolean, top: number): number {
  let [low, high] = [0, top];
  if (!isBelow(0)) return 0;
  for (let i = 0; i < 53; i++) {
    const middle = (low + high) / 2;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return high;
}
