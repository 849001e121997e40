/** Assigns a place to each element, near its target: on the grid, no two on the same cell. */

import type { GridCell } from "../protocol/osd.ts";
import { filledRows } from "./fit-rows.ts";
import { type FreeCells, freeCells } from "./free-cells.ts";
import { distanceFrom, nearestPlace, type Places, type Target } from "./nearest-place.ts";
import type { Grid } from "./placed.ts";
import { cellReadAt, readingKey } from "./reading-order.ts";

interface Attempt {
  readonly places: Places;
  readonly unplaced: number;
  /** The number of anchored elements that were moved from their targets. */
  readonly movedAnchors: number;
  /** The number of pairs whose reading order changed. */
  readonly inversions: number;
  readonly distance: number;
}

/**
 * Places at the targets or, where that is not possible, in the same reading order. If some element
 * finds no room that way, everything is packed again, the largest elements first. An element that is
 * missing from the result has no room.
 */
export function placesFor(targets: readonly Target[], grid: Grid): Places {
  const read = [...targets].sort((a, b) => a.rank - b.rank);
  const anchoredFirst = [...read].sort((a, b) => Number(b.anchored) - Number(a.anchored));
  const nearby = evaluate(placeAtTargets(anchoredFirst, read, grid), read);
  if (nearby.unplaced === 0 && nearby.inversions === 0) return nearby.places;
  let best = better(nearby, evaluate(placeInReadingOrder(read, grid), read));
  if (best.unplaced === 0) return best.places;
  const large = [...read].sort((a, b) => cellCount(b) - cellCount(a));
  const tall = [...read].sort((a, b) => b.placed.height - a.placed.height || b.placed.width - a.placed.width);
  const packings = [
    () => placeAtTargets(anchoredFirst, large, grid),
    () => placeAtTargets([], large, grid),
    () => placeAtTargets([], tall, grid),
    () => packFromTopLeft(tall, grid),
    () => packFromTopLeft(large, grid),
    () => packByRows(tall, read, grid),
  ];
  for (const packing of packings) {
    best = better(best, evaluate(packing(), read));
    if (best.unplaced === 0) break;
  }
  return best.places;
}

function cellCount({ placed }: Target): number {
  return placed.width * placed.height;
}

/**
 * Places `first` at their targets, if these are on the grid, free, and (unless anchored) in reading
 * order; then everything else, in the order of `all`, at the nearest free place with the fewest
 * changes to the reading order.
 */
function placeAtTargets(first: readonly Target[], all: readonly Target[], grid: Grid): Places {
  const free = freeCells(grid);
  const places = new Map<Target, GridCell>();
  const take = (target: Target, cell: GridCell) => {
    places.set(target, cell);
    free.take(cell, target.placed);
  };
  for (const target of first) {
    if (free.fits(target, target.placed) && (target.anchored || inOrder(target, places))) take(target, target);
  }
  for (const target of all) {
    const cell = places.has(target) ? null : nearestPlace(target, places, free, grid);
    if (cell) take(target, cell);
  }
  return places;
}

/** Whether an element at its target is in the old reading order with all elements placed so far. */
function inOrder(target: Target, places: Places): boolean {
  const key = readingKey(target, target.placed);
  for (const [other, cell] of places) {
    if (readingKey(cell, other.placed) < key !== other.rank < target.rank) return false;
  }
  return true;
}

/**
 * Places everything in reading order: each element at the place nearest to its target that comes
 * after all elements read before it, and that leaves room for all elements read after it. Anchored
 * elements stay where they are if their places are free.
 */
function placeInReadingOrder(read: readonly Target[], grid: Grid): Places {
  const places = new Map<Target, GridCell>();
  const free = freeCells(grid);
  const freeFromEnd = freeCells(grid);
  for (const target of read) {
    if (!target.anchored || !free.fits(target, target.placed)) continue;
    places.set(target, target);
    for (const each of [free, freeFromEnd]) each.take(target, target.placed);
  }
  const fixed: Places = new Map(places);
  const latest = latestCells(
    read.filter((target) => !fixed.has(target)),
    freeFromEnd,
    grid,
  );
  let key = 0;
  for (const [target, last] of latest) {
    const cell = nearestPlace(target, fixed, free, grid, { from: cellReadAt(key + 1, target.placed, grid), to: last });
    if (!cell) break;
    places.set(target, cell);
    free.take(cell, target.placed);
    key = readingKey(cell, target.placed);
  }
  return places;
}

/** In reading order: the last cell for each element that leaves room for all after it. Empty if there is no room. */
function latestCells(read: readonly Target[], free: FreeCells, grid: Grid): readonly (readonly [Target, number])[] {
  const latest: (readonly [Target, number])[] = [];
  let key = Infinity;
  for (const target of [...read].reverse()) {
    const before = key === Infinity ? grid.columns * grid.rows : cellReadAt(key, target.placed, grid);
    const cell = free.last(target.placed, before);
    if (!cell) return [];
    free.take(cell, target.placed);
    key = readingKey(cell, target.placed);
    latest.push([target, cell.row * grid.columns + cell.column]);
  }
  return latest.reverse();
}

/** Places each element at the first free place from the top left: tight, and used last. */
function packFromTopLeft(all: readonly Target[], grid: Grid): Places {
  const free = freeCells(grid);
  const places = new Map<Target, GridCell>();
  for (const target of all) {
    const cell = free.first(target.placed);
    if (!cell) continue;
    places.set(target, cell);
    free.take(cell, target.placed);
  }
  return places;
}

/** Places elements of several rows first, then fills every row as far as possible. */
function packByRows(tall: readonly Target[], read: readonly Target[], grid: Grid): Places {
  const free = freeCells(grid);
  const figures = packFromTopLeft(
    tall.filter(({ placed }) => placed.height > 1),
    grid,
  );
  for (const [{ placed }, cell] of figures) free.take(cell, placed);
  const lines = read
    .filter(({ placed }) => placed.height === 1)
    .map((target) => ({ wish: target, width: target.placed.width }));
  const rows = filledRows(lines, free, grid);
  return new Map([...figures, ...[...rows].map(([{ wish: target }, cell]) => [target, cell] as const)]);
}

/** Scores places. `read`: the elements in reading order. */
function evaluate(places: Places, read: readonly Target[]): Attempt {
  const keys: number[] = [];
  let [movedAnchors, distance, inversions] = [0, 0, 0];
  for (const target of read) {
    const cell = places.get(target);
    if (!cell) continue;
    const key = readingKey(cell, target.placed);
    for (const before of keys) if (before > key) inversions++;
    keys.push(key);
    const moved = distanceFrom(target, cell.column, cell.row);
    distance += moved;
    if (target.anchored && moved > 0) movedAnchors++;
  }
  return { places, unplaced: read.length - keys.length, movedAnchors, inversions, distance };
}

function better(a: Attempt, b: Attempt): Attempt {
  const difference =
    a.unplaced - b.unplaced ||
    a.movedAnchors - b.movedAnchors ||
    a.inversions - b.inversions ||
    a.distance - b.distance;
  return difference <= 0 ? a : b;
}
