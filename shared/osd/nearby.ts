/** Where else an element of a layout could stand. */
import { movedTo } from "./fit.ts";
import { nearestFree } from "./fit-places.ts";
import { freeCells } from "./free-cells.ts";
import type { CellArea, Layout, PlacedElement } from "./types.ts";

/**
 * The element at the nearest place where all its cells lie within `area` and share none with
 * another element; its anchors stay. Null where there is none.
 */
export function freePlaceFor(placed: PlacedElement, layout: Layout, area: CellArea): PlacedElement | null {
  const { columns, rows } = layout.grid;
  const free = freeCells(layout.grid);
  const block = (column: number, row: number, width: number, height: number) =>
    free.take({ column, row }, { width, height });
  block(0, 0, area.left, rows);
  block(area.right + 1, 0, columns - area.right - 1, rows);
  block(0, 0, columns, area.top);
  block(0, area.bottom + 1, columns, rows - area.bottom - 1);
  if (!placed.element.overlapsNothing) {
    for (const other of layout.elements) {
      if (other !== placed && !other.element.overlapsNothing) block(other.column, other.row, other.width, other.height);
    }
  }
  const cell = nearestFree(placed, placed, free, layout.grid);
  return cell && movedTo(placed, cell, layout.grid);
}
