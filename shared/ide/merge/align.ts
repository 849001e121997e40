/** Which items of one list stand in another: the lists are the same but for what was added, removed and changed. */

/** Cells of the table by which items without a unique partner are paired; beyond it such a stretch counts as changed. */
const MOST_CELLS = 250_000;

/**
 * For each item of `a` the place of its partner in `b`, or -1. Partners are equal and stand in the same order in both.
 * Items that are unique in both lists are paired first (Bram Cohen's patience diff; from memory), the stretches
 * between them by the longest common subsequence, as far as that takes no more than a bounded time.
 */
export function partnersOf(a: readonly string[], b: readonly string[]): Int32Array {
  const partners = new Int32Array(a.length).fill(-1);
  const open: Stretch[] = [{ a0: 0, a1: a.length, b0: 0, b1: b.length }];
  for (let stretch = open.pop(); stretch; stretch = open.pop()) {
    let { a0, a1, b0, b1 } = stretch;
    while (a0 < a1 && b0 < b1 && a[a0] === b[b0]) partners[a0++] = b0++;
    while (a0 < a1 && b0 < b1 && a[a1 - 1] === b[b1 - 1]) partners[--a1] = --b1;
    if (a0 === a1 || b0 === b1) continue;
    const anchors = anchorsIn(a, b, { a0, a1, b0, b1 });
    if (anchors.length === 0) {
      if ((a1 - a0) * (b1 - b0) <= MOST_CELLS) byTable(a, b, { a0, a1, b0, b1 }, partners);
      continue;
    }
    let [fromA, fromB] = [a0, b0];
    for (const [atA, atB] of anchors) {
      partners[atA] = atB;
      open.push({ a0: fromA, a1: atA, b0: fromB, b1: atB });
      [fromA, fromB] = [atA + 1, atB + 1];
    }
    open.push({ a0: fromA, a1, b0: fromB, b1 });
  }
  return partners;
}

interface Stretch {
  readonly a0: number;
  readonly a1: number;
  readonly b0: number;
  readonly b1: number;
}

/** Pairs of items that are unique in both stretches, as many as stand in the same order. */
function anchorsIn(a: readonly string[], b: readonly string[], { a0, a1, b0, b1 }: Stretch): [number, number][] {
  const once = new Map<string, { a: number; b: number }>();
  const many = -2;
  for (let i = a0; i < a1; i++) {
    const found = once.get(a[i]!);
    if (found) found.a = many;
    else once.set(a[i]!, { a: i, b: -1 });
  }
  for (let i = b0; i < b1; i++) {
    const found = once.get(b[i]!);
    if (found) found.b = found.b === -1 ? i : many;
  }
  const pairs = [...once.values()].filter((each) => each.a >= 0 && each.b >= 0);
  const rising = longestRising(pairs.map((each) => each.b));
  return rising.map((i) => [pairs[i]!.a, pairs[i]!.b]);
}

/** The places of a longest rising run of numbers, in order; n log n (patience sorting; from memory). */
export function longestRising(numbers: readonly number[]): number[] {
  const ends: number[] = [];
  const before = new Int32Array(numbers.length);
  for (let i = 0; i < numbers.length; i++) {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (numbers[ends[middle]!]! < numbers[i]!) low = middle + 1;
      else high = middle;
    }
    before[i] = low > 0 ? ends[low - 1]! : -1;
    ends[low] = i;
  }
  const run: number[] = [];
  for (let at = ends.at(-1) ?? -1; at >= 0; at = before[at]!) run.push(at);
  return run.reverse();
}

function byTable(a: readonly string[], b: readonly string[], { a0, a1, b0, b1 }: Stretch, partners: Int32Array): void {
  const width = b1 - b0 + 1;
  const most = new Int32Array((a1 - a0 + 1) * width);
  for (let i = a1 - 1; i >= a0; i--) {
    for (let j = b1 - 1; j >= b0; j--) {
      const at = (i - a0) * width + (j - b0);
      most[at] = a[i] === b[j] ? most[at + width + 1]! + 1 : Math.max(most[at + width]!, most[at + 1]!);
    }
  }
  for (let i = a0, j = b0; i < a1 && j < b1; ) {
    const at = (i - a0) * width + (j - b0);
    if (a[i] === b[j]) partners[i++] = j++;
    else if (most[at + width]! >= most[at + 1]!) i++;
    else j++;
  }
}
