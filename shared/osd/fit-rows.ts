/** The tightest packing: fills rows to the last cell if the widths allow it. */

import type { GridCell } from "../protocol/osd.ts";
import type { FreeCells } from "./free-cells.ts";
import type { Grid } from "./placed.ts";

interface RowElement {
  readonly width: number;
}

interface Run extends GridCell {
  readonly length: number;
}

/**
 * Places for elements of one row each. Takes the widest element left and the run of free cells that,
 * filled up with other elements, leaves the fewest cells unused, and repeats. Filling one run is a
 * subset-sum problem of the widths, which is solved exactly. `lines` are in the order in which
 * elements of one row are placed.
 */
export function filledRows<T extends RowElement>(
  lines: readonly T[],
  free: FreeCells,
  grid: Grid,
): ReadonlyMap<T, GridCell> {
  const places = new Map<T, GridCell>();
  let left = [...lines].sort((a, b) => b.width - a.width);
  let runs = freeRuns(free, grid);
  while (left.length > 0) {
    const [widest, ...others] = left as [T, ...T[]];
    const filling = bestFilling(widest, others, runs);
    if (!filling) {
      left = others;
      continue;
    }
    let { column } = filling.run;
    for (const line of lines.filter((each) => filling.chosen.has(each))) {
      places.set(line, { column, row: filling.run.row });
      column += line.width;
    }
    left = left.filter((line) => !filling.chosen.has(line));
    runs = runs.filter((run) => run !== filling.run);
  }
  return places;
}

/** Every maximal run of free cells, row by row. */
function freeRuns(free: FreeCells, { columns, rows }: Grid): Run[] {
  const runs: Run[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; ) {
      let length = 0;
      while (free.fits({ column, row }, { width: length + 1, height: 1 })) length++;
      if (length > 0) runs.push({ column, row, length });
      column += length + 1;
    }
  }
  return runs;
}

function bestFilling<T extends RowElement>(widest: T, others: readonly T[], runs: readonly Run[]) {
  let best: { readonly run: Run; readonly chosen: ReadonlySet<T>; readonly unused: number } | null = null;
  const seen = new Set<number>();
  for (const run of runs) {
    if (run.length < widest.width || seen.has(run.length)) continue;
    seen.add(run.length);
    const chosen = fullest(others, run.length - widest.width);
    const unused = run.length - widest.width - chosen.reduce((sum, { width }) => sum + width, 0);
    if (!best || unused < best.unused || (unused === best.unused && run.length < best.run.length))
      best = { run, chosen: new Set([widest, ...chosen]), unused };
  }
  return best;
}

/**
 * The elements whose widths add up to the most cells, but not more than `cells`; of equal sums the one with
 * the widest elements.
 */
function fullest<T extends RowElement>(lines: readonly T[], cells: number): T[] {
  // Narrow ones first in the table, so that reading it from the end takes the widest first.
  const rising = [...lines].reverse();
  /** After each element: the sums that it and those before it can make. */
  const reached = [new Uint8Array(cells + 1).fill(1, 0, 1)];
  for (const { width } of rising) {
    const before = reached.at(-1)!;
    const after = before.slice();
    for (let sum = width; sum <= cells; sum++) if (before[sum - width]) after[sum] = 1;
    reached.push(after);
  }
  let sum = reached.at(-1)!.lastIndexOf(1);
  const chosen: T[] = [];
  for (let i = rising.length - 1; i >= 0; i--) {
    const { width } = rising[i]!;
    if (sum < width || !reached[i]![sum - width]) continue;
    chosen.push(rising[i]!);
    sum -= width;
  }
  return chosen;
}
