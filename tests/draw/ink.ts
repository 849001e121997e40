/** What a renderer that is not ours makes of a drawing: `@resvg/resvg-wasm`. */
import { painter } from "../../server/src/node/png.ts";

const { Resvg } = await painter();

export interface Ink {
  readonly width: number;
  readonly height: number;
  /** How much of a pixel is covered, from 0 to 255, row by row. */
  readonly cover: readonly number[];
}

/** Draws an SVG at its own size. */
export function inkOf(svg: string): Ink {
  const image = new Resvg(svg).render();
  const { width, height, pixels } = image;
  const cover = Array.from({ length: width * height }, (_, index) => pixels[index * 4 + 3]!);
  image.free();
  return { width, height, cover };
}

/** Pixels that differ clearly, more than half covered in one and less in the other. */
export function differing(a: Ink, b: Ink): number {
  return a.cover.filter((cover, index) => cover > 127 !== b.cover[index]! > 127).length;
}
