/** What a screen is sure to show, and what should stay clear. */
import type { Craft } from "../model/craft.ts";
import { choiceOf } from "../model/setting-lookup.ts";
import type { CellArea, Grid } from "./placed.ts";

/**
 * Share of the picture's width and height that is safe for what must be seen.
 * Source: BKSTS Illustrated Dictionary, 4th ed., App. B: 90 % at 4:3, 93 % at 16:9.
 */
export const SAFE_SHARE = { "4:3": 0.9, "16:9": 0.93 } as const;
export type Aspect = keyof typeof SAFE_SHARE;

/** The cells that lie wholly inside the middle `share` (0 to 1) of a picture filled by the grid. */
export function safeCells(grid: Grid, share: number): CellArea {
  const [left, right] = inside(grid.columns, share);
  const [top, bottom] = inside(grid.rows, share);
  return { left, top, right, bottom };
}

function inside(cells: number, share: number): [number, number] {
  const margin = (cells * (1 - share)) / 2;
  // A hair's breadth of rounding must not cost a cell.
  const first = Math.ceil(margin - 1e-9);
  return [first, cells - 1 - first];
}

/** Whether an area lies wholly inside another. */
export function contains(outer: CellArea, { left, top, right, bottom }: CellArea): boolean {
  return left >= outer.left && right <= outer.right && top >= outer.top && bottom <= outer.bottom;
}

/** The middle third of columns and of rows. The third is the project's own figure: no published one was found. */
export function centralCells(grid: Grid): CellArea {
  const third = (cells: number): [number, number] => [Math.floor(cells / 3), Math.ceil((cells * 2) / 3) - 1];
  const [left, right] = third(grid.columns);
  const [top, bottom] = third(grid.rows);
  return { left, top, right, bottom };
}

/** The shape of the picture: as said; else the camera's; else by the signal, whose pictures are mostly of one shape. */
export function pictureOf(craft: Craft): Aspect {
  const word = choiceOf(craft, "osd.picture") ?? choiceOf(craft, "video.camera-picture");
  if (word !== undefined) return word === "16:9" ? "16:9" : "4:3";
  return choiceOf(craft, "video.signal") === "digital" ? "16:9" : "4:3";
}

/** Only an analogue picture loses its edges to the screen; a digital one is drawn whole by its viewer. */
export function isAnalogue(craft: Craft): boolean {
  return choiceOf(craft, "video.signal") === "analogue";
}

/** The whole cells that are safe in this craft's picture. */
export function safeCellsOf(craft: Craft, grid: Grid): CellArea {
  return safeCells(grid, SAFE_SHARE[pictureOf(craft)]);
}
