/** The part of the picture that a screen is sure to show, and the part that should stay clear. */
import type { Craft } from "../model/craft.ts";
import { choiceOf } from "../model/setting-lookup.ts";
import type { CellArea, Grid } from "./placed.ts";

/**
 * Share of the picture's width and height that is safe for what must be seen.
 * Source: BKSTS Illustrated Dictionary, 4th ed., App. B: 90 % at 4:3, 93 % at 16:9.
 */
export const SAFE_SHARE = { "4:3": 0.9, "16:9": 0.93 } as const;
export type Aspect = keyof typeof SAFE_SHARE;

/** The cells wholly inside the central `share` (0 to 1) of a picture that the grid fills. */
export function safeCells(grid: Grid, share: number): CellArea {
  const [left, right] = inside(grid.columns, share);
  const [top, bottom] = inside(grid.rows, share);
  return { left, top, right, bottom };
}

function inside(cells: number, share: number): [number, number] {
  const margin = (cells * (1 - share)) / 2;
  // A rounding error must not cost a cell.
  const first = Math.ceil(margin - 1e-9);
  return [first, cells - 1 - first];
}

/** Whether an area is wholly inside `outer`. */
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

/** The aspect of the picture: as set for the OSD, else for the camera, else the most common one for the signal. */
export function pictureOf(craft: Craft): Aspect {
  const word = choiceOf(craft, "osd.picture") ?? choiceOf(craft, "video.camera-picture");
  if (word !== undefined) return word === "16:9" ? "16:9" : "4:3";
  return choiceOf(craft, "video.signal") === "digital" ? "16:9" : "4:3";
}

/** Whether the picture is analogue: only such a one loses its edges on a screen; a digital one is shown whole. */
export function isAnalogue(craft: Craft): boolean {
  return choiceOf(craft, "video.signal") === "analogue";
}

/** The whole cells inside the safe area of this craft's picture. */
export function safeCellsOf(craft: Craft, grid: Grid): CellArea {
  return safeCells(grid, SAFE_SHARE[pictureOf(craft)]);
}
