/** Converts a layout to another grid. */

import type { GridCell } from "../protocol/osd.ts";
import type { Axis } from "../syntax/value.ts";
import { placesFor } from "./fit-places.ts";
import { resolveAxis } from "./layout.ts";
import type { Target } from "./nearest-place.ts";
import type { Grid, Layout, PlacedElement } from "./placed.ts";
import { readingKey } from "./reading-order.ts";

export interface Fitted {
  /** On the new grid, in the script's order: no two elements share a cell, and all are on the grid. */
  readonly layout: Layout;
  /** Elements for which there was no room. */
  readonly unplaced: readonly string[];
}

/**
 * The layout on another grid. Anchored places stay as written. An absolute place in an outer third
 * keeps its distance to that edge; in the middle third it keeps its place relative to the centre.
 * An element that would then leave the grid or share cells moves to the nearest free place that keeps
 * the reading order. If some element finds no room that way, everything is packed again, the largest
 * elements first.
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

/** An element moved to another cell of a grid: each axis keeps its anchor and gets a new offset. */
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

/** Where each element should be on the new grid, in the script's order. */
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
 * The first cell of an absolute axis on another grid, by the third that its centre was in: in an
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

/** Overlays: as near to their targets as the grid allows. */
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
