/** A magnifier over the picture of the OSD, and when its letters can be read without one. */
import type { Grid } from "../protocol/osd.ts";
import type { Box } from "./scene.ts";

/**
 * The least size of a cell, in CSS pixels, at which its letters can be read: capitals take five ninths of its height, and
 * below five pixels their strokes run together. (The project's own figure, by looking.)
 */
export const READABLE_CELL = { width: 6.4, height: 9 } as const;

/** A picture on the page: its size in CSS pixels. */
export interface ShownPicture extends Grid {
  readonly widthPx: number;
  /** Width over height. */
  readonly aspect: number;
}

/** Whether the letters of a picture can be read at the size at which it is shown. */
export function isReadable({ columns, rows, aspect, widthPx }: ShownPicture): boolean {
  return widthPx / columns >= READABLE_CELL.width && widthPx / aspect / rows >= READABLE_CELL.height;
}

/** The least width in CSS pixels at which they can. */
export function readableWidthPx({ columns, rows, aspect }: Omit<ShownPicture, "widthPx">): number {
  return Math.ceil(Math.max(columns * READABLE_CELL.width, rows * READABLE_CELL.height * aspect));
}

/** Cells are so wide under the magnifier, in CSS pixels, but never less than twice as wide as before. */
const MAGNIFIED_CELL_PX = 13;
const LEAST_FACTOR = 2;

/** What a magnifier is given: the picture's box in its frame, in CSS pixels, its box in units of the drawing, and the point. */
export interface Magnified {
  readonly frame: { readonly widthPx: number; readonly heightPx: number };
  readonly picture: Box;
  readonly drawing: Box;
  readonly columns: number;
  /** In CSS pixels from the frame's corner. */
  readonly point: { readonly x: number; readonly y: number };
  /**
   * `point`: what is at the point is seen at the point, so whatever is under the pointer stays there, and what is dragged
   * stays in the hand. `middle`: it is seen in the middle of the lens, as far as the drawing reaches.
   */
  readonly keeps: "point" | "middle";
}

export interface Lens {
  /** In CSS pixels from the frame's corner. */
  readonly box: Box;
  /** The part of the drawing that it shows. */
  readonly shows: Box;
}

/** The lens at a point; it stays inside the frame. */
export function lensAt({ frame, picture, drawing, columns, point, keeps }: Magnified): Lens {
  const width = Math.round(Math.min(frame.widthPx, Math.max(120, Math.min(280, frame.widthPx * 0.7))));
  const height = Math.round(Math.min(frame.heightPx, width * 0.45));
  const x = clamp(point.x - width / 2, 0, frame.widthPx - width);
  const y = clamp(point.y - height / 2, 0, frame.heightPx - height);
  const unitPx = picture.width / drawing.width;
  const lensUnitPx = unitPx * Math.max(LEAST_FACTOR, MAGNIFIED_CELL_PX / (picture.width / columns));
  const at = {
    x: drawing.x + (point.x - picture.x) / unitPx,
    y: drawing.y + (point.y - picture.y) / unitPx,
  };
  const size = { width: width / lensUnitPx, height: height / lensUnitPx };
  const corner =
    keeps === "point"
      ? { x: at.x - (point.x - x) / lensUnitPx, y: at.y - (point.y - y) / lensUnitPx }
      : {
          x: clamp(at.x - size.width / 2, drawing.x, drawing.x + drawing.width - size.width),
          y: clamp(at.y - size.height / 2, drawing.y, drawing.y + drawing.height - size.height),
        };
  return { box: { x, y, width, height }, shows: { ...corner, ...size } };
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}
