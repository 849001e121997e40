/** Whether memory is flat: what a process holds late in its life against what it held once it had settled. */

/**
 * How much more memory the last quarter of a series held than the second: the median of the one as a share of the
 * median of the other, less one. The first quarter is when caches fill and code is compiled, and a median does not
 * mind the moment before memory is gathered. NaN of fewer than four.
 */
export function growthOf(series: readonly number[]): number {
  const quarter = Math.floor(series.length / 4);
  if (quarter === 0) return Number.NaN;
  const settled = medianOf(series.slice(quarter, 2 * quarter));
  return medianOf(series.slice(-quarter)) / settled - 1;
}

/** The middle one, or the mean of the two in the middle; NaN of none. */
export function medianOf(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return Number.isInteger(middle) ? (sorted[middle - 1]! + sorted[middle]!) / 2 : sorted[Math.floor(middle)]!;
}
