/** Finds a free place for an element of a layout. */
import { MOST_CELLS } from "../protocol/osd.ts";
import { movedTo } from "./fit.ts";
import { freeCells } from "./free-cells.ts";
import { nearestFreePlace } from "./nearest-place.ts";
import type { CellArea, Layout, PlacedElement } from "./placed.ts";

/**
 * The element at the nearest place where all its cells are within `area` and none is shared with
 * another element; its anchors stay. Null if there is none. Null also on a grid with more than
 * `MOST_CELLS` cells, which is mistyped: the search looks at every cell.
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
