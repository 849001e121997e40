/** Pictures of pixels from SVG, by a package that the npm command line brings along and an editor does not need. */
import { readFileSync } from "node:fs";
import { createRequire as requireFrom } from "node:module";

/** The package that is needed is not there. */
export class NoPainter extends Error {}

/**
 * A PNG of an SVG at its own size. No font is read, so that the bytes are the same on every machine: the SVG
 * must not hold text nodes.
 * @throws NoPainter where `@resvg/resvg-wasm` is not installed
 */
export async function toPng(svg: string): Promise<Uint8Array> {
  const { Resvg } = await painter();
  const resvg = new Resvg(svg, { font: { loadSystemFonts: false } });
  try {
    const image = resvg.render();
    try {
      return image.asPng();
    } finally {
      image.free();
    }
  } finally {
    resvg.free();
  }
}

let begun: ReturnType<typeof begin> | null = null;

/** The package that renders, initialized: that can be done only once per process. */
export function painter(): ReturnType<typeof begin> {
  begun ??= begin();
  return begun;
}

async function begin() {
  let wasm: Uint8Array<ArrayBuffer>;
  let made: typeof import("@resvg/resvg-wasm");
  try {
    made = await import("@resvg/resvg-wasm");
    wasm = readFileSync(requireFrom(import.meta.url).resolve("@resvg/resvg-wasm/index_bg.wasm"));
  } catch (error) {
    throw new NoPainter("the package @resvg/resvg-wasm is not installed", { cause: error });
  }
  await made.initWasm(wasm);
  return made;
}
