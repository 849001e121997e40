/** Places for elements that wish for one each: on the grid, no two over each other. */
import { filledRows } from "./fit-rows.ts";
import { type FreeCells, freeCells } from "./free-cells.ts";
import { CHARACTER_PIXELS } from "./layout.ts";
import { type Cell, cellReadAt, readingKey, type Size } from "./reading-order.ts";
import type { CellArea, Grid, PlacedElement } from "./types.ts";

/** Where an element should come to stand, were it alone. It may be off the grid. */
export interface Wish extends Cell {
  readonly placed: PlacedElement;
  /** Among all elements, as one reads them on the old grid. */
  readonly rank: number;
  readonly anchored: boolean;
}

export type Places = ReadonlyMap<Wish, Cell>;

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
    const cell = places.has(wish) ? null : nearest(wish, places, free, grid);
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
    const cell = nearest(wish, fixed, free, grid, { from: cellReadAt(key + 1, wish.placed, grid), to: last });
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

/** Cells by their number, row by row, ends included. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The free place with the fewest elements out of order; of these the nearest to the wish. */
function nearest(wish: Wish, places: Places, free: FreeCells, grid: Grid, within?: Stretch): Cell | null {
  const { columns, rows } = grid;
  const outOfOrder = inversionsAt(wish, places, grid);
  let best: Cell | null = null;
  let [leastInversions, leastCost] = [Infinity, Infinity];
  const end = within ? within.to + 1 : columns * rows;
  for (let at = within?.from ?? 0; at < end; at++) {
    const inversions = outOfOrder[at]!;
    if (inversions > leastInversions) continue;
    const column = at % columns;
    const row = (at - column) / columns;
    const distance = distanceFrom(wish, column, row);
    if (inversions === leastInversions && distance >= leastCost) continue;
    const cell = { column, row };
    if (!free.fits(cell, wish.placed)) continue;
    const cost = standsAlone(cell, wish.placed, free, grid) ? distance : apart(distance);
    if (inversions === leastInversions && cost >= leastCost) continue;
    best = cell;
    leastInversions = inversions;
    leastCost = cost;
  }
  return best;
}

/** By cell, row by row: with how many of those placed the element would be read in the other order there. */
function inversionsAt(wish: Wish, places: Places, grid: Grid): Int32Array {
  const counts = new Int32Array(grid.columns * grid.rows + 1);
  for (const [other, cell] of places) {
    const from = cellReadAt(readingKey(cell, other.placed), wish.placed, grid);
    // What was read before it is out of order with every cell up to there, the others with every cell from there.
    if (other.rank > wish.rank) counts[from]! += 1;
    else {
      counts[0]! += 1;
      counts[from]! -= 1;
    }
  }
  for (let at = 1; at < counts.length; at++) counts[at]! += counts[at - 1]!;
  return counts;
}

/** The free place nearest to a cell, within an area; null where nothing of this size fits. */
export function nearestFree(from: Cell, size: Size, free: FreeCells, grid: Grid, within: CellArea): Cell | null {
  let best: Cell | null = null;
  let leastCost = Infinity;
  for (let row = within.top; row + size.height - 1 <= within.bottom; row++) {
    for (let column = within.left; column + size.width - 1 <= within.right; column++) {
      const distance = distanceFrom(from, column, row);
      const cell = { column, row };
      if (distance >= leastCost || !free.fits(cell, size)) continue;
      const cost = standsAlone(cell, size, free, grid) ? distance : apart(distance);
      if (cost >= leastCost) continue;
      best = cell;
      leastCost = cost;
    }
  }
  return best;
}

/** Whether nothing is wall to wall with it on the left or the right: two figures would read as one. */
function standsAlone({ column, row }: Cell, { width, height }: Size, free: FreeCells, { columns }: Grid): boolean {
  const side = { width: 1, height };
  const left = column === 0 || free.fits({ column: column - 1, row }, side);
  return left && (column + width === columns || free.fits({ column: column + width, row }, side));
}

/** A place wall to wall with another counts as two columns further off; the two are this project's choice. */
function apart(distance: number): number {
  return (Math.sqrt(distance) + 2) ** 2;
}

/** A row is as far as so many columns: the character's height over its width. */
const ROW_IN_COLUMNS = CHARACTER_PIXELS.height / CHARACTER_PIXELS.width;

/** Squared, in columns. */
function distanceFrom(from: Cell, column: number, row: number): number {
  return (from.column - column) ** 2 + (ROW_IN_COLUMNS * (from.row - row)) ** 2;
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
