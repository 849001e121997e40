/** Places for elements that wish for one each: on the grid, no two over each other. */
import { filledRows } from "./fit-rows.ts";
import { type FreeCells, freeCells } from "./free-cells.ts";
import { distanceFrom, nearestPlace, type Places, type Wish } from "./nearest-place.ts";
import type { Grid } from "./placed.ts";
import { type Cell, cellReadAt, readingKey } from "./reading-order.ts";

interface Attempt {
  readonly places: Places;
  readonly unplaced: number;
  /** Anchored elements that had to leave a place which was theirs. */
  readonly uprooted: number;
  /** Pairs that one now reads in the other order. */
  readonly inversions: number;
  readonly distance: number;
}

/**
 * Places that keep to the wishes, and where that cannot be, to the order of reading; only if
 * something finds no room that way is everything packed anew, the largest first. An element that
 * is not in the answer has found no room.
 */
export function placesFor(wishes: readonly Wish[], grid: Grid): Places {
  const read = [...wishes].sort((a, b) => a.rank - b.rank);
  const rooted = [...read].sort((a, b) => Number(b.anchored) - Number(a.anchored));
  const nearby = judged(settled(rooted, read, grid), read);
  if (nearby.unplaced === 0 && nearby.inversions === 0) return nearby.places;
  let best = betterOf(nearby, judged(inTurn(read, grid), read));
  if (best.unplaced === 0) return best.places;
  const large = [...read].sort((a, b) => areaOf(b) - areaOf(a));
  const tall = [...read].sort((a, b) => b.placed.height - a.placed.height || b.placed.width - a.placed.width);
  const packings = [
    () => settled(rooted, large, grid),
    () => settled([], large, grid),
    () => settled([], tall, grid),
    () => packed(tall, grid),
    () => packed(large, grid),
    () => filled(tall, read, grid),
  ];
  for (const packing of packings) {
    best = betterOf(best, judged(packing(), read));
    if (best.unplaced === 0) break;
  }
  return best.places;
}

function areaOf({ placed }: Wish): number {
  return placed.width * placed.height;
}

/**
 * `first` take the places that they wish for, as far as those are on the grid, free, and (unless
 * anchored) in the order of reading; then everything else, in the order of `all`, the nearest free
 * place that keeps the order of reading.
 */
function settled(first: readonly Wish[], all: readonly Wish[], grid: Grid): Places {
  const free = freeCells(grid);
  const places = new Map<Wish, Cell>();
  const take = (wish: Wish, cell: Cell) => {
    places.set(wish, cell);
    free.take(cell, wish.placed);
  };
  for (const wish of first) {
    if (free.fits(wish, wish.placed) && (wish.anchored || inOrder(wish, places))) take(wish, wish);
  }
  for (const wish of all) {
    const cell = places.has(wish) ? null : nearestPlace(wish, places, free, grid);
    if (cell) take(wish, cell);
  }
  return places;
}

/** Whether an element, where it wishes to stand, would be read in the old order with all that are placed. */
function inOrder(wish: Wish, places: Places): boolean {
  const key = readingKey(wish, wish.placed);
  for (const [other, cell] of places) {
    if (readingKey(cell, other.placed) < key !== other.rank < wish.rank) return false;
  }
  return true;
}

/**
 * Everything in the order of reading: each at the place nearest to its wish that comes after all
 * that is read before it, and leaves room for all that is read after it. Anchored elements stay
 * where they are, as far as their places are free.
 */
function inTurn(read: readonly Wish[], grid: Grid): Places {
  const places = new Map<Wish, Cell>();
  const free = freeCells(grid);
  const freeFromEnd = freeCells(grid);
  for (const wish of read) {
    if (!wish.anchored || !free.fits(wish, wish.placed)) continue;
    places.set(wish, wish);
    for (const each of [free, freeFromEnd]) each.take(wish, wish.placed);
  }
  const fixed: Places = new Map(places);
  const latest = latestCells(
    read.filter((wish) => !fixed.has(wish)),
    freeFromEnd,
    grid,
  );
  let key = 0;
  for (const [wish, last] of latest) {
    const cell = nearestPlace(wish, fixed, free, grid, { from: cellReadAt(key + 1, wish.placed, grid), to: last });
    if (!cell) break;
    places.set(wish, cell);
    free.take(cell, wish.placed);
    key = readingKey(cell, wish.placed);
  }
  return places;
}

/** In the order of reading: the last cell at which each can stand so that all after it still find room. */
function latestCells(read: readonly Wish[], free: FreeCells, grid: Grid): readonly (readonly [Wish, number])[] {
  const latest: (readonly [Wish, number])[] = [];
  let key = Infinity;
  for (const wish of [...read].reverse()) {
    const before = key === Infinity ? grid.columns * grid.rows : cellReadAt(key, wish.placed, grid);
    const cell = free.last(wish.placed, before);
    if (!cell) return [];
    free.take(cell, wish.placed);
    key = readingKey(cell, wish.placed);
    latest.push([wish, cell.row * grid.columns + cell.column]);
  }
  return latest.reverse();
}

/** Each at the first free place from the top left: the tightest, and the last resort. */
function packed(all: readonly Wish[], grid: Grid): Places {
  const free = freeCells(grid);
  const places = new Map<Wish, Cell>();
  for (const wish of all) {
    const cell = free.first(wish.placed);
    if (!cell) continue;
    places.set(wish, cell);
    free.take(cell, wish.placed);
  }
  return places;
}

/** Figures of several rows first, then every row filled as far as it goes. */
function filled(tall: readonly Wish[], read: readonly Wish[], grid: Grid): Places {
  const free = freeCells(grid);
  const figures = packed(
    tall.filter(({ placed }) => placed.height > 1),
    grid,
  );
  for (const [{ placed }, cell] of figures) free.take(cell, placed);
  const lines = read.filter(({ placed }) => placed.height === 1).map((wish) => ({ wish, width: wish.placed.width }));
  const rows = filledRows(lines, free, grid);
  return new Map([...figures, ...[...rows].map(([{ wish }, cell]) => [wish, cell] as const)]);
}

/** `read`: in the order of reading. */
function judged(places: Places, read: readonly Wish[]): Attempt {
  const keys: number[] = [];
  let [uprooted, distance, inversions] = [0, 0, 0];
  for (const wish of read) {
    const cell = places.get(wish);
    if (!cell) continue;
    const key = readingKey(cell, wish.placed);
    for (const before of keys) if (before > key) inversions++;
    keys.push(key);
    const moved = distanceFrom(wish, cell.column, cell.row);
    distance += moved;
    if (wish.anchored && moved > 0) uprooted++;
  }
  return { places, unplaced: read.length - keys.length, uprooted, inversions, distance };
}

function betterOf(a: Attempt, b: Attempt): Attempt {
  const difference =
    a.unplaced - b.unplaced || a.uprooted - b.uprooted || a.inversions - b.inversions || a.distance - b.distance;
  return difference <= 0 ? a : b;
}
