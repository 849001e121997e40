/** Keeps track of the free cells of a grid. */

import type { GridCell } from "../protocol/osd.ts";
import type { Grid } from "./placed.ts";
import type { CellSize } from "./reading-order.ts";

export interface FreeCells {
  /** Whether all cells of an element at this place are on the grid and free. */
  fits(at: GridCell, size: CellSize): boolean;
  /** Marks cells as taken; those off the grid are ignored. */
  take(at: GridCell, size: CellSize): void;
  /** The first free place, row by row from the top left; null if there is none. */
  first(size: CellSize): GridCell | null;
  /** The last free place that starts before a cell, counted row by row from 0; null if there is none. */
  last(size: CellSize, before: number): GridCell | null;
}

/** An empty grid. */
export function freeCells({ columns, rows }: Grid): FreeCells {
  /** For each cell: the number of free cells from it to the right. */
  const runs = new Uint16Array(columns * rows).map((_, at) => columns - (at % columns));
  const fits: FreeCells["fits"] = ({ column, row }, { width, height }) => {
    if (column < 0 || row < 0 || column + width > columns || row + height > rows) return false;
    for (let r = row; r < row + height; r++) if (runs[r * columns + column]! < width) return false;
    return true;
  };
  const cellOf = (at: number): GridCell => ({ column: at % columns, row: Math.floor(at / columns) });
  return {
    fits,
    take({ column, row }, { width, height }) {
      const [left, right] = [Math.max(0, column), Math.min(columns, column + width)];
      if (left >= right) return;
      for (let r = Math.max(0, row); r < Math.min(rows, row + height); r++) {
        for (let c = left; c < right; c++) runs[r * columns + c] = 0;
        for (let c = left - 1; c >= 0 && runs[r * columns + c]! > 0; c--) runs[r * columns + c] = left - c;
      }
    },
    first(size) {
      for (let at = 0; at < columns * rows; at++) {
        const cell = cellOf(at);
        if (fits(cell, size)) return cell;
      }
      return null;
    },
    last(size, before) {
      for (let at = before - 1; at >= 0; at--) {
        const cell = cellOf(at);
        if (fits(cell, size)) return cell;
      }
      return null;
    },
  };
}
