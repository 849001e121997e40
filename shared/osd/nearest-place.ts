/** The nearest place for an element, and the order in which it would be read there. */
import type { FreeCells } from "./free-cells.ts";
import { CHARACTER_PIXELS } from "./layout.ts";
import type { CellArea, Grid, PlacedElement } from "./placed.ts";
import { type CellSize, cellReadAt, type GridCell, readingKey } from "./reading-order.ts";

/** Where an element should come to stand, were it alone. It may be off the grid. */
export interface Target extends GridCell {
  readonly placed: PlacedElement;
  /** Among all elements, as one reads them on the old grid. */
  readonly rank: number;
  readonly anchored: boolean;
}

export type Places = ReadonlyMap<Target, GridCell>;

/** Cells by their number, row by row, ends included. */
export interface CellRange {
  readonly from: number;
  readonly to: number;
}

/** The free place with the fewest elements out of order; of these the nearest to the wish. */
export function nearestPlace(
  target: Target,
  places: Places,
  free: FreeCells,
  grid: Grid,
  within?: CellRange,
): GridCell | null {
  const { columns, rows } = grid;
  const outOfOrder = inversionsAt(target, places, grid);
  let best: GridCell | null = null;
  let [leastInversions, leastCost] = [Infinity, Infinity];
  const end = within ? within.to + 1 : columns * rows;
  for (let at = within?.from ?? 0; at < end; at++) {
    const inversions = outOfOrder[at]!;
    if (inversions > leastInversions) continue;
    const column = at % columns;
    const row = (at - column) / columns;
    const distance = distanceFrom(target, column, row);
    if (inversions === leastInversions && distance >= leastCost) continue;
    const cell = { column, row };
    if (!free.fits(cell, target.placed)) continue;
    const cost = hasGaps(cell, target.placed, free, grid) ? distance : crowdedDistance(distance);
    if (inversions === leastInversions && cost >= leastCost) continue;
    best = cell;
    leastInversions = inversions;
    leastCost = cost;
  }
  return best;
}

/** By cell, row by row: with how many of those placed the element would be read in the other order there. */
function inversionsAt(target: Target, places: Places, grid: Grid): Int32Array {
  const counts = new Int32Array(grid.columns * grid.rows + 1);
  for (const [other, cell] of places) {
    const from = cellReadAt(readingKey(cell, other.placed), target.placed, grid);
    // What was read before it is out of order with every cell up to there, the others with every cell from there.
    if (other.rank > target.rank) counts[from]! += 1;
    else {
      counts[0]! += 1;
      counts[from]! -= 1;
    }
  }
  for (let at = 1; at < counts.length; at++) counts[at]! += counts[at - 1]!;
  return counts;
}

/** The free place nearest to a cell, within an area; null where nothing of this size fits. */
export function nearestFreePlace(
  from: GridCell,
  size: CellSize,
  free: FreeCells,
  grid: Grid,
  within: CellArea,
): GridCell | null {
  let best: GridCell | null = null;
  let leastCost = Infinity;
  for (let row = within.top; row + size.height - 1 <= within.bottom; row++) {
    for (let column = within.left; column + size.width - 1 <= within.right; column++) {
      const distance = distanceFrom(from, column, row);
      const cell = { column, row };
      if (distance >= leastCost || !free.fits(cell, size)) continue;
      const cost = hasGaps(cell, size, free, grid) ? distance : crowdedDistance(distance);
      if (cost >= leastCost) continue;
      best = cell;
      leastCost = cost;
    }
  }
  return best;
}

/** Whether nothing is wall to wall with it on the left or the right: two figures would read as one. */
function hasGaps({ column, row }: GridCell, { width, height }: CellSize, free: FreeCells, { columns }: Grid): boolean {
  const side = { width: 1, height };
  const left = column === 0 || free.fits({ column: column - 1, row }, side);
  return left && (column + width === columns || free.fits({ column: column + width, row }, side));
}

/** A place wall to wall with another counts as two columns further off; the two are this project's choice. */
function crowdedDistance(distance: number): number {
  return (Math.sqrt(distance) + 2) ** 2;
}

/** A row is as far as so many columns: the character's height over its width. */
const ROW_IN_COLUMNS = CHARACTER_PIXELS.height / CHARACTER_PIXELS.width;

/** Squared, in columns. */
export function distanceFrom(from: GridCell, column: number, row: number): number {
  return (from.column - column) ** 2 + (ROW_IN_COLUMNS * (from.row - row)) ** 2;
}
