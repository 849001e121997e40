/** A layout for one grid turned into one for another. */
import type { Axis } from "../syntax/value.ts";
import { placesFor } from "./fit-places.ts";
import { resolveAxis } from "./layout.ts";
import type { Wish } from "./nearest-place.ts";
import type { Grid, Layout, PlacedElement } from "./placed.ts";
import { type Cell, readingKey } from "./reading-order.ts";

export interface Fitted {
  /** On the new grid, in the script's order: no two share a cell, none leaves the grid. */
  readonly layout: Layout;
  /** Elements for which there was no room. */
  readonly unplaced: readonly string[];
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
  const cells = new Map([...placesFor(solid, to), ...floating(wishes, to)]);
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
  const inReading = [...elements].sort((a, b) => readingKey(a, a) - readingKey(b, b));
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
 * The first cell of an absolute axis on another grid, by the third in which its middle stood: in an
 * outer one the distance to that edge stays, in the middle one the place relative to the centre.
 */
function byRegion(at: number, size: number, from: number, to: number): number {
  const middle = at + size / 2;
  if (middle < from / 3) return at;
  if (middle > (from * 2) / 3) return at + to - from;
  return at - half(from - size) + half(to - size);
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
