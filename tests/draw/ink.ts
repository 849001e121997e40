/** What a renderer that is not ours makes of a drawing: `@resvg/resvg-wasm`. */
import { painter } from "../../server/src/node/png.ts";

const { Resvg } = await painter();

export interface Ink {
  readonly width: number;
  readonly height: number;
  /** How much of a pixel is covered, from 0 to 255, row by row. */
  readonly cover: Uint8Array;
  /** Red, green and blue of each pixel as one number. */
  readonly colour: Uint32Array;
}

/** Draws an SVG at its own size. */
export function inkOf(svg: string): Ink {
  const image = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
  const { width, height, pixels } = image;
  const cover = new Uint8Array(width * height);
  const colour = new Uint32Array(width * height);
  for (let index = 0; index < cover.length; index++) {
    const at = index * 4;
    cover[index] = pixels[at + 3]!;
    colour[index] = pixels[at]! * 0x10000 + pixels[at + 1]! * 0x100 + pixels[at + 2]!;
  }
  image.free();
  return { width, height, cover, colour };
}

/** Pixels that differ clearly, more than half covered in one and less in the other. */
export function differing(a: Ink, b: Ink): number {
  return a.cover.reduce((sum, cover, index) => sum + (cover > 127 !== b.cover[index]! > 127 ? 1 : 0), 0);
}

/** Where the colours of two pictures of one size differ, as x and y. */
export function changes(a: Ink, b: Ink): { readonly x: number; readonly y: number; readonly colour: number }[] {
  const found: { x: number; y: number; colour: number }[] = [];
  for (let index = 0; index < a.colour.length; index++) {
    if (a.colour[index] === b.colour[index]) continue;
    found.push({ x: index % a.width, y: Math.floor(index / a.width), colour: b.colour[index]! });
  }
  return found;
}
