/**
 * The reading order of a layout: by the centres of the elements, row by row. Centres, because a tall
 * figure that starts above a line of text is read after it if most of the figure is below.
 */
import type { GridCell } from "../protocol/osd.ts";
import type { Grid } from "./placed.ts";

export interface CellSize {
  readonly width: number;
  readonly height: number;
}

/** Weight of a row in a key: more than twice the columns of any grid and of any place that a script can write. */
const ROW = 2 ** 16;

/** A number that rises in reading order; two elements that share no cell never have the same one. */
export function readingKey({ column, row }: GridCell, { width, height }: CellSize): number {
  return (2 * row + height) * ROW + 2 * column + width;
}

/** The first cell, counted row by row from 0, at which an element of this size would be read at `key` or later. */
export function cellReadAt(key: number, { width, height }: CellSize, { columns, rows }: Grid): number {
  const rowPart = Math.round(key / ROW);
  const columnPart = key - rowPart * ROW;
  const rowsDown = rowPart - height;
  const row = Math.ceil(rowsDown / 2);
  if (row < 0) return 0;
  const column = rowsDown % 2 === 0 ? Math.max(0, Math.min(columns, Math.ceil((columnPart - width) / 2))) : 0;
  return Math.min(columns * rows, row * columns + column);
}
