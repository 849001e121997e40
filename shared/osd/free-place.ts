/** Where else an element of a layout could stand. */
import { MOST_CELLS } from "../protocol/osd.ts";
import { movedTo } from "./fit.ts";
import { freeCells } from "./free-cells.ts";
import { nearestFreePlace } from "./nearest-place.ts";
import type { CellArea, Layout, PlacedElement } from "./placed.ts";

/**
 * The element at the nearest place where all its cells lie within `area` and share none with
 * another element; its anchors stay. Null where there is none. On a grid with more cells than any
 * may have, which is a slip of the keyboard, none is sought: every cell would be looked at.
 */
export function freePlaceFor(placed: PlacedElement, layout: Layout, area: CellArea): PlacedElement | null {
  const { columns, rows } = layout.grid;
  if (columns * rows > MOST_CELLS) return null;
  const free = freeCells(layout.grid);
  if (!placed.element.overlapsNothing) {
    for (const other of layout.elements) {
      if (other !== placed && !other.element.overlapsNothing) free.take(other, other);
    }
  }
  const cell = nearestFreePlace(placed, placed, free, layout.grid, area);
  return cell && movedTo(placed, cell, layout.grid);
}
