/** Text of the OSD picture, one letter a cell. */
import { CELL, rowPath } from "./glyphs.ts";
import { node, rounded, type SceneNode } from "./scene.ts";

/** A row of letters, one a cell, from a corner on. The node also has the text as an attribute, so that drawings can be searched. */
export function lettersIn(
  text: string,
  { x, y }: { readonly x: number; readonly y: number },
  cell: { readonly width: number; readonly height: number },
): SceneNode {
  const scale = `${fine(cell.width / CELL.width)} ${fine(cell.height / CELL.height)}`;
  const transform = `translate(${rounded(x)} ${rounded(y)}) scale(${scale})`;
  return node("path", { class: "glyphs", d: rowPath(text), transform, "data-text": text });
}

/** Scale factors are rounded less than places, as their errors accumulate over a row of cells. */
function fine(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
