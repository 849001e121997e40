/** Finds the nearest place for an element, with regard to the reading order. */

import type { GridCell } from "../protocol/osd.ts";
import type { FreeCells } from "./free-cells.ts";
import { CHARACTER_PIXELS } from "./layout.ts";
import type { CellArea, Grid, PlacedElement } from "./placed.ts";
import { type CellSize, cellReadAt, readingKey } from "./reading-order.ts";

/** Where an element should be if no other were in the way. May be off the grid. */
export interface Target extends GridCell {
  readonly placed: PlacedElement;
  /** Its index in the reading order of the old grid. */
  readonly rank: number;
  readonly anchored: boolean;
}

export type Places = ReadonlyMap<Target, GridCell>;

/** A range of cells, counted row by row from 0, both ends included. */
export interface CellRange {
  readonly from: number;
  readonly to: number;
}

/**
 * The free place with the fewest elements out of reading order; of several the nearest to the target. Null
 * if none is free.
 */
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

/** For each cell, row by row: the number of placed elements with which the element would be out of order there. */
function inversionsAt(target: Target, places: Places, grid: Grid): Int32Array {
  const counts = new Int32Array(grid.columns * grid.rows + 1);
  for (const [other, cell] of places) {
    const from = cellReadAt(readingKey(cell, other.placed), target.placed, grid);
    // Elements read before it are out of order with all cells up to `from`, the others with all cells from there on.
    if (other.rank > target.rank) counts[from]! += 1;
    else {
      counts[0]! += 1;
      counts[from]! -= 1;
    }
  }
  for (let at = 1; at < counts.length; at++) counts[at]! += counts[at - 1]!;
  return counts;
}

/** The free place nearest to a cell, within an area; null if nothing of this size fits. */
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

/** Whether nothing is directly to its left or right: two numbers without a gap would read as one. */
function hasGaps({ column, row }: GridCell, { width, height }: CellSize, free: FreeCells, { columns }: Grid): boolean {
  const side = { width: 1, height };
  const left = column === 0 || free.fits({ column: column - 1, row }, side);
  return left && (column + width === columns || free.fits({ column: column + width, row }, side));
}

/** The squared distance of a place without a gap: two columns are added. The two are this project's choice. */
function crowdedDistance(distance: number): number {
  return (Math.sqrt(distance) + 2) ** 2;
}

/** The height of a row in columns: the character's height over its width. */
const ROW_IN_COLUMNS = CHARACTER_PIXELS.height / CHARACTER_PIXELS.width;

/** The squared distance, in columns. */
export function distanceFrom(from: GridCell, column: number, row: number): number {
  return (from.column - column) ** 2 + (ROW_IN_COLUMNS * (from.row - row)) ** 2;
}
