/** How one thing grows with another: a straight line by least squares, and the exponent of a power law. */

export interface Line {
  readonly slope: number;
  readonly intercept: number;
}

export type XY = readonly [x: number, y: number];

/** The straight line with the least sum of squares of vertical distances. Throws where all x are the same. */
export function leastSquares(points: readonly XY[]): Line {
  const mean = (at: 0 | 1) => points.reduce((sum, point) => sum + point[at], 0) / points.length;
  const [meanX, meanY] = [mean(0), mean(1)];
  // About the means: sums of squares of the numbers themselves would cancel.
  const [xx, xy] = points.reduce(
    ([sumXX, sumXY], [x, y]) => [sumXX + (x - meanX) ** 2, sumXY + (x - meanX) * (y - meanY)] as const,
    [0, 0] as readonly [number, number],
  );
  if (!(xx > 0)) throw new Error("no line goes through points of one x");
  const slope = xy / xx;
  return { slope, intercept: meanY - slope * meanX };
}

/** So many points at the top tell how it goes on: below them costs that are always the same bend the curve. */
const UPPER = 4;

/**
 * The exponent k of y = c x^k over the last points, in order of x: 1 is a straight line through nothing, less is better.
 * The slope of a least-squares line through the logarithms.
 */
export function growthOf(points: readonly XY[]): number {
  return leastSquares(points.slice(-UPPER).map(([x, y]) => [Math.log(x), Math.log(y)])).slope;
}
