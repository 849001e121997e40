/** Moves overlapping labels beside a drawing apart. */

/** The heights in their order, at least `least` apart; within the span if there is enough room in it. */
export function apart(
  ys: readonly number[],
  least: number,
  span: { readonly from: number; readonly to: number },
): number[] {
  const order = ys.map((_, index) => index).sort((a, b) => ys[a]! - ys[b]! || a - b);
  const placed = [...ys];
  let free = span.from;
  for (const index of order) {
    placed[index] = Math.max(free, placed[index]!);
    free = placed[index]! + least;
  }
  let floor = Math.max(span.to, span.from + (ys.length - 1) * least);
  for (const index of order.reverse()) {
    placed[index] = Math.min(floor, placed[index]!);
    floor = placed[index]! - least;
  }
  return placed;
}
