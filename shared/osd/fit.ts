/** A layout for one grid turned into one for another. */
import type { Axis } from "../syntax/value.ts";
import { freeCells } from "./free-cells.ts";
import { resolveAxis } from "./layout.ts";
import type { Grid, Layout, PlacedElement } from "./types.ts";

export interface Fitted {
  /** On the new grid, in the script's order: no two share a cell, none leaves the grid. */
  readonly layout: Layout;
  /** Elements for which there was no room. */
  readonly unplaced: readonly string[];
}

/** Where an element should come to stand, were it alone. It may be off the grid. */
interface Wish {
  readonly placed: PlacedElement;
  readonly column: number;
  readonly row: number;
  /** Rank among all elements as one reads them on the old grid. */
  readonly rank: number;
  readonly anchored: boolean;
}

interface Cell {
  readonly column: number;
  readonly row: number;
}

interface Attempt {
  readonly cells: ReadonlyMap<Wish, Cell>;
  readonly unplaced: number;
  /** Anchored elements that had to leave a place which was theirs. */
  readonly uprooted: number;
  /** Pairs that one now reads in the other order. */
  readonly inversions: number;
  readonly distance: number;
}

/**
 * The layout on another grid. Anchored places stay as they are written. An absolute place keeps its
 * distance to the nearer edge; in the middle it keeps its place relative to the centre. What then
 * leaves the grid or shares cells moves to the nearest free place that keeps the order in which one
 * reads; only if something finds no room that way is the layout packed anew, the largest first.
 */
export function fitLayout(layout: Layout, to: Grid): Fitted {
  const wishes = wishesOf(layout, to);
  const solid = wishes.filter(({ placed }) => !placed.element.overlapsNothing);
  const cells = new Map([...bestOf(solid, to).cells, ...floating(wishes, to)]);
  return {
    layout: {
      grid: to,
      elements: wishes.flatMap((wish) => {
        const cell = cells.get(wish);
        return cell ? [movedTo(wish.placed, cell, to)] : [];
      }),
    },
    unplaced: wishes.filter((wish) => !cells.has(wish)).map(({ placed }) => placed.name),
  };
}

/** An element at another cell of a grid: an axis keeps its anchor, with the offset that leads there. */
export function movedTo(placed: PlacedElement, { column, row }: Cell, grid: Grid): PlacedElement {
  const place = {
    column: axisAt(placed.place.column, column, grid.columns, placed.width),
    row: axisAt(placed.place.row, row, grid.rows, placed.height),
  };
  return { ...placed, column, row, place };
}

function axisAt(axis: Axis, at: number, cells: number, size: number): Axis {
  return { ...axis, offset: at - resolveAxis({ ...axis, offset: 0 }, cells, size) };
}

/** In the script's order. */
function wishesOf({ grid, elements }: Layout, to: Grid): Wish[] {
  const inReading = [...elements].sort((a, b) => a.row - b.row || a.column - b.column);
  const ranks = new Map(inReading.map((placed, rank) => [placed, rank]));
  return elements.map((placed) => ({
    placed,
    column: wishedAt(placed.place.column, placed.column, placed.width, grid.columns, to.columns),
    row: wishedAt(placed.place.row, placed.row, placed.height, grid.rows, to.rows),
    rank: ranks.get(placed)!,
    anchored: placed.place.column.anchor !== null || placed.place.row.anchor !== null,
  }));
}

function wishedAt(axis: Axis, at: number, size: number, from: number, to: number): number {
  return axis.anchor === null ? byRegion(at, size, from, to) : resolveAxis(axis, to, size);
}

/**
 * The first cell of an absolute axis on another grid. The regions are thirds of the smaller of the
 * two: near an edge keeps its distance to it, about the centre keeps its place relative to it. On a
 * smaller grid what stood between the regions is pushed together where they meet, so that nothing
 * passes anything else.
 */
function byRegion(at: number, size: number, from: number, to: number): number {
  const middle = at + size / 2;
  const third = Math.min(from, to) / 3;
  if (middle <= third) return at;
  if (from - middle <= third) return at + to - from;
  if (Math.abs(middle - from / 2) <= third / 2) return at - half(from - size) + half(to - size);
  return Math.round((middle < from / 2 ? third : to - third) - size / 2);
}

function half(cells: number): number {
  return Math.floor(cells / 2);
}

/** Elements that lie over others: as near to where they should stand as the grid allows. */
function floating(wishes: readonly Wish[], { columns, rows }: Grid): [Wish, Cell][] {
  return wishes
    .filter(({ placed }) => placed.element.overlapsNothing && placed.width <= columns && placed.height <= rows)
    .map((wish) => [
      wish,
      {
        column: clamp(wish.column, columns - wish.placed.width),
        row: clamp(wish.row, rows - wish.placed.height),
      },
    ]);
}

function clamp(at: number, most: number): number {
  return Math.max(0, Math.min(at, most));
}

/** The first way in which everything finds room in its order; else the best of all. */
function bestOf(wishes: readonly Wish[], grid: Grid): Attempt {
  const read = [...wishes].sort((a, b) => a.rank - b.rank);
  const large = [...read].sort((a, b) => areaOf(b) - areaOf(a));
  const tall = [...read].sort((a, b) => b.placed.height - a.placed.height || b.placed.width - a.placed.width);
  const rooted = [...read].sort((a, b) => Number(b.anchored) - Number(a.anchored));
  const ways: (() => ReadonlyMap<Wish, Cell>)[] = [
    () => settled(rooted, read, grid),
    () => settled(rooted, large, grid),
    () => settled([], large, grid),
    () => settled([], tall, grid),
    () => packed(tall, grid),
    () => packed(large, grid),
  ];
  let best: Attempt | null = null;
  for (const way of ways) {
    const attempt = judged(way(), wishes, grid);
    if (!best || better(attempt, best)) best = attempt;
    if (best.unplaced === 0) break;
  }
  return best!;
}

function areaOf({ placed }: Wish): number {
  return placed.width * placed.height;
}

/**
 * `first` take the places that they wish for, as far as those are on the grid and free; then
 * everything else, in the order of `all`, the nearest free place that keeps the order of reading.
 */
function settled(first: readonly Wish[], all: readonly Wish[], grid: Grid): ReadonlyMap<Wish, Cell> {
  const free = freeCells(grid);
  const cells = new Map<Wish, Cell>();
  const take = (wish: Wish, cell: Cell) => {
    cells.set(wish, cell);
    free.take(cell.column, cell.row, wish.placed.width, wish.placed.height);
  };
  for (const wish of first) {
    if (free.fits(wish.column, wish.row, wish.placed.width, wish.placed.height)) take(wish, wish);
  }
  for (const wish of all) {
    const cell = cells.has(wish) ? null : nearest(wish, cells, free.fits, grid);
    if (cell) take(wish, cell);
  }
  return cells;
}

/** Cells are 12 x 18 pixels on the overlay chip (MAX7456 datasheet, p. 10): a row is as far as 1.5 columns. */
const ROW_IN_COLUMNS = 18 / 12;

function nearest(
  wish: Wish,
  cells: ReadonlyMap<Wish, Cell>,
  fits: (column: number, row: number, width: number, height: number) => boolean,
  grid: Grid,
): Cell | null {
  const { width, height } = wish.placed;
  const outOfOrder = inversionsAt(wish, cells, grid);
  let best: Cell | null = null;
  let [leastInversions, leastDistance] = [Infinity, Infinity];
  for (let row = 0; row + height <= grid.rows; row++) {
    for (let column = 0; column + width <= grid.columns; column++) {
      const inversions = outOfOrder[row * grid.columns + column]!;
      if (inversions > leastInversions) continue;
      const distance = distanceTo(wish, { column, row });
      if (inversions === leastInversions && distance >= leastDistance) continue;
      if (!fits(column, row, width, height)) continue;
      best = { column, row };
      leastInversions = inversions;
      leastDistance = distance;
    }
  }
  return best;
}

/** By cell, row by row: with how many of those placed one would read the element in the other order there. */
function inversionsAt(wish: Wish, cells: ReadonlyMap<Wish, Cell>, { columns, rows }: Grid): Int32Array {
  const counts = new Int32Array(columns * rows);
  for (const [{ rank }, { column, row }] of cells) {
    const at = row * columns + column;
    // Those read before it are out of order with every cell before theirs, the others with every cell after.
    if (rank > wish.rank) {
      if (at + 1 < counts.length) counts[at + 1]! += 1;
    } else {
      counts[0]! += 1;
      counts[at]! -= 1;
    }
  }
  for (let at = 1; at < counts.length; at++) counts[at]! += counts[at - 1]!;
  return counts;
}

function distanceTo(wish: Wish, { column, row }: Cell): number {
  return (wish.column - column) ** 2 + (ROW_IN_COLUMNS * (wish.row - row)) ** 2;
}

/** Each at the first free place from the top left: the tightest, and the last resort. */
function packed(all: readonly Wish[], grid: Grid): ReadonlyMap<Wish, Cell> {
  const free = freeCells(grid);
  const cells = new Map<Wish, Cell>();
  for (const wish of all) {
    const { width, height } = wish.placed;
    const cell = free.first(width, height);
    if (!cell) continue;
    cells.set(wish, cell);
    free.take(cell.column, cell.row, width, height);
  }
  return cells;
}

function judged(cells: ReadonlyMap<Wish, Cell>, wishes: readonly Wish[], grid: Grid): Attempt {
  const read = [...cells].sort(([a], [b]) => a.rank - b.rank).map(([, { column, row }]) => row * grid.columns + column);
  const inversions = read.reduce((sum, at, i) => sum + read.slice(0, i).filter((before) => before > at).length, 0);
  const moved = [...cells].map(([wish, cell]) => ({ wish, distance: distanceTo(wish, cell) }));
  return {
    cells,
    unplaced: wishes.length - cells.size,
    uprooted: moved.filter(({ wish, distance }) => wish.anchored && distance > 0).length,
    inversions,
    distance: moved.reduce((sum, { distance }) => sum + distance, 0),
  };
}

function better(a: Attempt, b: Attempt): boolean {
  const difference =
    a.unplaced - b.unplaced || a.uprooted - b.uprooted || a.inversions - b.inversions || a.distance - b.distance;
  return difference < 0;
}
