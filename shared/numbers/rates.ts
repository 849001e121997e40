/**
 * Rates: from stick deflection to turn rate and to throttle. Pure arithmetic; `rates-of.ts` reads a
 * craft's figures, and `sticks.ts` converts pulses.
 *
 * - `rateAt`, `stickAtRate`, `highestRate`, `rateCurve`: one axis
 * - `turnS`: how long one turn takes
 * - `throttleAt`, `stickAtThrottle`: the throttle with its curve, softness and limit
 */

/** One axis: the slope at the middle, the rate at the end, and the exponent of the bend between them. */
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
 * The stick deflection (0 to 1) with the highest rate: the end, unless the slope is so much steeper than the
 * end that the curve falls again. Then it is where the derivative is zero.
 */
export function stickAtHighestRate({ slopeDegS, endDegS, bend }: RateAxis): number {
  if (bend <= 1 || slopeDegS * (bend - 1) <= endDegS * bend) return 1;
  return (slopeDegS / (bend * (slopeDegS - endDegS))) ** (1 / (bend - 1));
}

/** The highest rate in deg/s that the stick can command. */
export function highestRate(axis: RateAxis): number {
  return rateAt(axis, stickAtHighestRate(axis));
}

/** The smallest stick deflection (0 to 1) that gives a rate, by bisection; null for a rate that is never reached. */
export function stickAtRate(axis: RateAxis, degS: number): number | null {
  const top = stickAtHighestRate(axis);
  const highest = rateAt(axis, top);
  // The curve is flat around its maximum, where rounding may lift a neighbour above it.
  if (degS < 0 || degS > highest * (1 + 1e-12)) return null;
  const target = Math.min(degS, highest);
  return bisect((stick) => rateAt(axis, stick) < target, top);
}

/** The stick deflection with half the rate of the end: 0.5 for a straight line, more the more the curve bends. */
export function halfRateStick(axis: RateAxis): number | null {
  return stickAtRate(axis, axis.endDegS / 2);
}

/** Stick and rate at `points` evenly spaced deflections from the middle to the end, limited to `topDegS`. */
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

/** Seconds for one whole turn at a rate: 360 deg over the rate. */
export function turnS(degS: number): number {
  return 360 / degS;
}

export interface Throttle {
  /** Throttle from 0 to 1 at evenly spaced stick deflections; null for a straight line. */
  readonly curve: readonly number[] | null;
  /** Softness from 0 to 1, centred on a stick deflection; null if nothing is softened. */
  readonly soft: { readonly share: number; readonly about: number } | null;
  readonly limit: number;
  readonly limitBy: "stretched" | "cut-off";
}

/**
 * Throttle from 0 to 1 for a stick from 0 to 1: the curve, interpolated linearly, or the soft cubic, then
 * the limit. Stretched multiplies by the limit; cut-off stops at it.
 */
export function throttleAt(throttle: Throttle, stick: number): number {
  const at = Math.min(1, Math.max(0, stick));
  const requested = throttle.curve
    ? interpolate(throttle.curve, at)
    : throttle.soft
      ? softenedThrottle(throttle.soft, at)
      : at;
  return throttle.limitBy === "stretched" ? requested * throttle.limit : Math.min(requested, throttle.limit);
}

/** The smallest stick deflection (0 to 1) that gives a throttle, by bisection; null if full stick gives less. */
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
 * The cubic of common radio-control practice on either side of `about`: there the slope is reduced by
 * the share, and the curve meets the straight line at that point and at both ends.
 */
function softenedThrottle({ share, about }: { readonly share: number; readonly about: number }, at: number): number {
  const room = at < about ? about : 1 - about;
  if (room === 0) return at;
  const away = (at - about) / room;
  return about + room * ((1 - share) * away + share * away ** 3);
}

/** Bisection: the point between 0 and `top` below which `isBelow` holds. 53 steps use up the bits of a double. */
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
