/** Letters of the picture in their cells. */
import { CELL, rowPath } from "./glyphs.ts";
import { node, rounded, type SceneNode } from "./scene.ts";

/** A row of letters, one a cell, from a corner on. The text stands beside its letters, for those who search the drawing. */
export function lettersIn(
  text: string,
  { x, y }: { readonly x: number; readonly y: number },
  cell: { readonly width: number; readonly height: number },
): SceneNode {
  const scale = `${fine(cell.width / CELL.width)} ${fine(cell.height / CELL.height)}`;
  const transform = `translate(${rounded(x)} ${rounded(y)}) scale(${scale})`;
  return node("path", { class: "glyphs", d: rowPath(text), transform, "data-text": text });
}

/** A scale is finer than a place: over a row of cells its rounding adds up. */
function fine(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
