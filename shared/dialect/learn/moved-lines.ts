/** Which lines of a board's text are others after something was changed on the board. */

/** A line that is another one now; null on the side on which there is none. Lines from 0. */
export interface MovedLine {
  readonly before: { readonly line: number; readonly text: string } | null;
  readonly after: { readonly line: number; readonly text: string } | null;
}

/** With more changes in one stretch the whole of it counts as changed. */
const MOST_CHANGES = 1500;

/** The lines that differ, in order of the later text. Line ends, and blanks at the end of a line, are no difference. */
export function movedLines(before: string, after: string): readonly MovedLine[] {
  const [a, b] = [linesOf(before), linesOf(after)];
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) tail++;
  return changed(a, b, anchors(a, b, head, a.length - tail, b.length - tail), head, [a.length - tail, b.length - tail]);
}

function linesOf(text: string): readonly string[] {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
  if (lines.at(-1) === "") lines.pop();
  return lines.map((line) => line.trimEnd());
}

/** A line that stands in both texts, by its number in each. */
type Anchor = readonly [number, number];

/** Lines that stayed, in order: the lines that each text has once first, then what is between them. */
function anchors(a: readonly string[], b: readonly string[], from: number, endA: number, endB: number): Anchor[] {
  const unique = inRisingOrder(onceInBoth(a, b, from, endA, endB));
  const found: Anchor[] = [];
  let [atA, atB] = [from, from];
  for (const [nextA, nextB] of [...unique, [endA, endB] as const]) {
    found.push(...commonBetween(a, b, [atA, nextA], [atB, nextB]));
    if (nextA < endA) found.push([nextA, nextB]);
    [atA, atB] = [nextA + 1, nextB + 1];
  }
  return found;
}

function onceInBoth(a: readonly string[], b: readonly string[], from: number, endA: number, endB: number): Anchor[] {
  const places = (lines: readonly string[], end: number) => {
    const at = new Map<string, number>();
    for (let i = from; i < end; i++) at.set(lines[i]!, at.has(lines[i]!) ? -1 : i);
    return at;
  };
  const inB = places(b, endB);
  return [...places(a, endA)].flatMap(([text, i]): Anchor[] => {
    const j = inB.get(text) ?? -1;
    return i < 0 || j < 0 ? [] : [[i, j]];
  });
}

/** The most of these that rise in both texts (the longest increasing subsequence, by patience sorting). */
function inRisingOrder(pairs: readonly Anchor[]): Anchor[] {
  const ends: number[] = [];
  const previous = new Array<number>(pairs.length).fill(-1);
  for (const [i, [, j]] of pairs.entries()) {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[ends[middle]!]![1] < j) low = middle + 1;
      else high = middle;
    }
    previous[i] = low > 0 ? ends[low - 1]! : -1;
    ends[low] = i;
  }
  const rising: Anchor[] = [];
  for (let i = ends.at(-1) ?? -1; i >= 0; i = previous[i]!) rising.push(pairs[i]!);
  return rising.reverse();
}

/**
 * The longest common sequence of a stretch (Myers, “An O(ND) Difference Algorithm and Its Variations”, 1986): quick where
 * little differs. None where too much does.
 */
function commonBetween(
  a: readonly string[],
  b: readonly string[],
  [fromA, toA]: readonly [number, number],
  [fromB, toB]: readonly [number, number],
): Anchor[] {
  const [rows, columns] = [toA - fromA, toB - fromB];
  if (rows <= 0 || columns <= 0) return [];
  const most = Math.min(rows + columns, MOST_CHANGES);
  // How far down each diagonal one comes with so many changes.
  const reach = new Int32Array(2 * most + 3).fill(-1);
  const trace: Int32Array[] = [];
  const middle = most + 1;
  reach[middle + 1] = 0;
  for (let changes = 0; changes <= most; changes++) {
    trace.push(reach.slice(middle - changes - 1, middle + changes + 2));
    for (let k = -changes; k <= changes; k += 2) {
      const isDown = k === -changes || (k !== changes && reach[middle + k - 1]! < reach[middle + k + 1]!);
      let i = isDown ? reach[middle + k + 1]! : reach[middle + k - 1]! + 1;
      while (i < rows && i - k < columns && i - k >= 0 && a[fromA + i] === b[fromB + i - k]) i++;
      reach[middle + k] = i;
      if (i >= rows && i - k >= columns) return wayBack(trace, rows, columns).map(([x, y]) => [fromA + x, fromB + y]);
    }
  }
  return [];
}

/** The lines in common on the way that was found, from its end. */
function wayBack(trace: readonly Int32Array[], rows: number, columns: number): Anchor[] {
  const common: Anchor[] = [];
  let [i, j] = [rows, columns];
  for (let changes = trace.length - 1; changes >= 0; changes--) {
    const reach = trace[changes]!;
    const at = (k: number) => reach[k + changes + 1]!;
    const k = i - j;
    const from = k === -changes || (k !== changes && at(k - 1) < at(k + 1)) ? k + 1 : k - 1;
    const [startI, startJ] = changes === 0 ? [0, 0] : [at(from), at(from) - from];
    while (i > startI && j > startJ) common.push([--i, --j]);
    [i, j] = [startI, startJ];
  }
  return common.reverse();
}

/** What stands between lines that stayed; in a stretch of as many lines on both sides each is the other's. */
function changed(
  a: readonly string[],
  b: readonly string[],
  stayed: readonly Anchor[],
  from: number,
  end: Anchor,
): MovedLine[] {
  const moved: MovedLine[] = [];
  let [atA, atB] = [from, from];
  const side = (lines: readonly string[], line: number, to: number) =>
    line < to ? { line, text: lines[line]! } : null;
  for (const [nextA, nextB] of [...stayed, end]) {
    const pairs = paired(a.slice(atA, nextA), b.slice(atB, nextB));
    for (const [i, j] of pairs)
      moved.push({
        before: i === null ? null : side(a, atA + i, nextA),
        after: j === null ? null : side(b, atB + j, nextB),
      });
    [atA, atB] = [nextA + 1, nextB + 1];
  }
  return moved;
}

type Pair = readonly [number | null, number | null];

/** Lines of a stretch that became others: in order, each with the next that begins like it. */
function paired(a: readonly string[], b: readonly string[]): Pair[] {
  if (a.length === b.length) return a.map((_, i): Pair => [i, i]);
  const pairs: Pair[] = [];
  let next = 0;
  for (const [i, text] of a.entries()) {
    const j = b.findIndex((other, at) => at >= next && firstWord(other) === firstWord(text));
    if (j < 0) {
      pairs.push([i, null]);
      continue;
    }
    for (; next < j; next++) pairs.push([null, next]);
    pairs.push([i, j]);
    next = j + 1;
  }
  for (; next < b.length; next++) pairs.push([null, next]);
  return pairs;
}

function firstWord(text: string): string {
  return /^\s*\S+/.exec(text)?.[0] ?? "";
}
