/** Words beside a drawing that would lie over one another, moved apart. */

/** Heights no nearer to one another than `least`, in their order, within a span as far as that goes. */
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
