/** Places for elements that wish for one each: on the grid, no two over each other. */
import { filledRows } from "./fit-rows.ts";
import { type FreeCells, freeCells } from "./free-cells.ts";
import { distanceFrom, nearestPlace, type Places, type Target } from "./nearest-place.ts";
import type { Grid } from "./placed.ts";
import { cellReadAt, type GridCell, readingKey } from "./reading-order.ts";

interface Attempt {
  readonly places: Places;
  readonly unplaced: number;
  /** Anchored elements that had to leave a place which was theirs. */
  readonly movedAnchors: number;
  /** Pairs that one now reads in the other order. */
  readonly inversions: number;
  readonly distance: number;
}

/**
 * Places that keep to the wishes, and where that cannot be, to the order of reading; only if
 * something finds no room that way is everything packed anew, the largest first. An element that
 * is not in the answer has found no room.
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
    () => packRows(tall, read, grid),
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
 * `first` take the places that they wish for, as far as those are on the grid, free, and (unless
 * anchored) in the order of reading; then everything else, in the order of `all`, the nearest free
 * place that keeps the order of reading.
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

/** Whether an element, where it wishes to stand, would be read in the old order with all that are placed. */
function inOrder(target: Target, places: Places): boolean {
  const key = readingKey(target, target.placed);
  for (const [other, cell] of places) {
    if (readingKey(cell, other.placed) < key !== other.rank < target.rank) return false;
  }
  return true;
}

/**
 * Everything in the order of reading: each at the place nearest to its wish that comes after all
 * that is read before it, and leaves room for all that is read after it. Anchored elements stay
 * where they are, as far as their places are free.
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

/** In the order of reading: the last cell at which each can stand so that all after it still find room. */
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

/** Each at the first free place from the top left: the tightest, and the last resort. */
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

/** Figures of several rows first, then every row filled as far as it goes. */
function packRows(tall: readonly Target[], read: readonly Target[], grid: Grid): Places {
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

/** `read`: in the order of reading. */
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
