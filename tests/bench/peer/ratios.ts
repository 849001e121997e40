/** What several rounds of a measurement come to: medians with their range, and two sides as a ratio. */

/** The middle of some figures, with the least and the most of them. */
export interface Spread {
  readonly median: number;
  readonly min: number;
  readonly max: number;
}

/** The median is the middle figure, or half-way between the two in the middle. Throws where there is no figure. */
export function spreadOf(figures: readonly number[]): Spread {
  const sorted = figures.toSorted((a, b) => a - b);
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  if (low === undefined || high === undefined) throw new Error("no figures");
  return { median: (low + high) / 2, min: sorted[0]!, max: sorted.at(-1)! };
}

/**
 * Ours over theirs, round by round: what disturbs the machine for minutes disturbs both sides of a round.
 * Throws where the rounds are not as many on both sides.
 */
export function ratioOf(ours: readonly number[], theirs: readonly number[]): Spread {
  if (ours.length !== theirs.length) throw new Error(`${ours.length} rounds beside ${theirs.length}`);
  return spreadOf(ours.map((each, i) => each / theirs[i]!));
}
