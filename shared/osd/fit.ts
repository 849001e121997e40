/** A layout for one grid turned into one for another. */
import type { Axis } from "../syntax/value.ts";
import { placesFor } from "./fit-places.ts";
import { resolveAxis } from "./layout.ts";
import type { Target } from "./nearest-place.ts";
import type { Grid, Layout, PlacedElement } from "./placed.ts";
import { type GridCell, readingKey } from "./reading-order.ts";

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
  const targets = targetsOf(layout, to);
  const solid = targets.filter(({ placed }) => !placed.element.overlapsNothing);
  const cells = new Map([...placesFor(solid, to), ...placeOverlays(targets, to)]);
  return {
    layout: {
      grid: to,
      elements: targets.flatMap((target) => {
        const cell = cells.get(target);
        return cell ? [movedTo(target.placed, cell, to)] : [];
      }),
    },
    unplaced: targets.filter((target) => !cells.has(target)).map(({ placed }) => placed.name),
  };
}

/** An element at another cell of a grid: an axis keeps its anchor, with the offset that leads there. */
export function movedTo(placed: PlacedElement, { column, row }: GridCell, grid: Grid): PlacedElement {
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
function targetsOf({ grid, elements }: Layout, to: Grid): Target[] {
  const inReading = [...elements].sort((a, b) => readingKey(a, a) - readingKey(b, b));
  const ranks = new Map(inReading.map((placed, rank) => [placed, rank]));
  return elements.map((placed) => ({
    placed,
    column: targetOnAxis(placed.place.column, placed.column, placed.width, grid.columns, to.columns),
    row: targetOnAxis(placed.place.row, placed.row, placed.height, grid.rows, to.rows),
    rank: ranks.get(placed)!,
    anchored: placed.place.column.anchor !== null || placed.place.row.anchor !== null,
  }));
}

function targetOnAxis(axis: Axis, at: number, size: number, from: number, to: number): number {
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
function placeOverlays(targets: readonly Target[], { columns, rows }: Grid): [Target, GridCell][] {
  return targets
    .filter(({ placed }) => placed.element.overlapsNothing && placed.width <= columns && placed.height <= rows)
    .map((target) => [
      target,
      {
        column: clamp(target.column, columns - target.placed.width),
        row: clamp(target.row, rows - target.placed.height),
      },
    ]);
}

function clamp(at: number, most: number): number {
  return Math.max(0, Math.min(at, most));
}
