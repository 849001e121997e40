/** The cells of a grid that nothing stands on. */
import type { Grid } from "./types.ts";

export interface FreeCells {
  /** Whether so many columns and rows from a cell on are all on the grid and free. */
  fits(column: number, row: number, width: number, height: number): boolean;
  take(column: number, row: number, width: number, height: number): void;
  /** The first place from the top left, row by row, where so many fit; null where none is. */
  first(width: number, height: number): { readonly column: number; readonly row: number } | null;
}

export function freeCells({ columns, rows }: Grid): FreeCells {
  /** By cell: how many free cells there are from it to the right. */
  const runs = new Uint16Array(columns * rows).map((_, at) => columns - (at % columns));
  const fits: FreeCells["fits"] = (column, row, width, height) => {
    if (column < 0 || row < 0 || column + width > columns || row + height > rows) return false;
    for (let r = row; r < row + height; r++) if (runs[r * columns + column]! < width) return false;
    return true;
  };
  return {
    fits,
    take(column, row, width, height) {
      for (let r = row; r < row + height; r++) {
        let run = 0;
        for (let c = columns - 1; c >= 0; c--) {
          const taken = (c >= column && c < column + width) || runs[r * columns + c] === 0;
          run = taken ? 0 : run + 1;
          runs[r * columns + c] = run;
        }
      }
    },
    first(width, height) {
      for (let row = 0; row + height <= rows; row++) {
        for (let column = 0; column + width <= columns; column++) {
          if (fits(column, row, width, height)) return { column, row };
        }
      }
      return null;
    },
  };
}
