import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { ACCENTS, SHAPES } from "../../shared/draw/glyph-shapes.ts";
import { CELL, hasGlyph, PEN, printedLine, rowPath, strokesOf } from "../../shared/draw/glyphs.ts";
import { differing, inkOf } from "./ink.ts";

const ascii = Array.from({ length: 95 }, (_, index) => String.fromCharCode(32 + index));
const accented = [..."ÄÖÜäöüÉéèêëñÑçÇåÅČčŘřőťąęÂîïÌÐđĺ"];
const drawn = [...Object.keys(SHAPES), ...Object.keys(ACCENTS), ...accented, "字"];

/** A letter with its dark edge, in the middle one of three by three cells, a pixel a unit. */
function amidst(letter: string): string {
  const edge = `stroke="#000" stroke-width="${2 * PEN.edge}" stroke-linejoin="round"`;
  const place = `transform="translate(${CELL.width} ${CELL.height})"`;
  const size = `width="${3 * CELL.width}" height="${3 * CELL.height}"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size}><path d="${rowPath(letter)}" ${edge} ${place}/></svg>`;
}

function inCell(letter: string) {
  const size = `width="${CELL.width}" height="${CELL.height}"`;
  return inkOf(`<svg xmlns="http://www.w3.org/2000/svg" ${size}><path d="${rowPath(letter)}"/></svg>`);
}

test("a cell has the shape of the chip's characters", () => {
  // Character-overlay chip datasheet MAX7456 (19-0576 Rev 0, 8/07, p. 10): character 12 x 18 pixels; read.
  expect(CELL).toEqual({ width: 12, height: 18 });
});

test("every character that an element can show has a glyph", () => {
  const { elements } = makeCatalogue();
  const shown = elements.flatMap(({ name, shows, widest }) => [
    ...shows.map((row) => row.replaceAll(/\{[^}]*\}/g, "")),
    ...widest,
    name.toUpperCase(),
  ]);
  const needed = new Set([...shown.join(""), ...ascii, ..."°µ"]);
  expect([...needed].filter((character) => !hasGlyph(character))).toEqual([]);
});

test("every character that the drawings and the words beside them use has a glyph", () => {
  const folder = join(import.meta.dirname, "../../shared");
  const sources = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) =>
    /^(draw|osd)\/.*\.ts$/.test(file),
  );
  const used = new Set(sources.flatMap((file) => [...readFileSync(join(folder, file), "utf8")]));
  const lacking = [...used].filter((character) => character >= " " && !hasGlyph(character));
  expect(sources.length).toBeGreaterThan(10);
  expect(lacking).toEqual([]);
});

test.each(drawn)("“%s” stays inside its cell with its dark edge, by an independent renderer", (letter) => {
  const { width, height, cover } = inkOf(amidst(letter));
  const stray = [...cover].flatMap((amount, index) => {
    const [x, y] = [index % width, Math.floor(index / width)];
    const inside = x >= CELL.width && x < 2 * CELL.width && y >= CELL.height && y < 2 * CELL.height;
    return inside || amount === 0 ? [] : [`${x - CELL.width}, ${y - CELL.height}`];
  });
  expect([width, height]).toEqual([36, 54]);
  expect(stray).toEqual([]);
  if (letter !== " ") expect(cover.some((amount) => amount === 255)).toBe(true);
});

test("letters and digits differ at one pixel a unit", () => {
  const letters = ascii
    .filter((character) => /[A-Za-z0-9]/.test(character))
    .map((name) => ({ name, ink: inCell(name) }));
  const alike = letters.flatMap((a, index) =>
    letters.slice(0, index).flatMap((b) => (differing(a.ink, b.ink) < 8 ? [`${a.name}${b.name}`] : [])),
  );
  expect(alike).toEqual([]);
});

test("a row is its letters, a cell each, blanks included", () => {
  const one = inkOf(amidst("L"));
  const shifted = inkOf(amidst(" L")).cover.filter((_, index) => index % 36 >= 12);
  expect(shifted).toEqual(one.cover.filter((_, index) => index % 36 < 24));
  expect(rowPath("   ")).toBe("");
  expect(rowPath("")).toBe("");
});

test("a letter with an accent is the letter, and the accent over it", () => {
  expect(strokesOf("é")).toEqual([...strokesOf("e"), ...strokesOf("\u0301")]);
  expect(strokesOf("ç").slice(0, -1)).toEqual(strokesOf("c"));
  // Capitals are lowered to make room, and stand on the same line.
  const ys = strokesOf("Ä")
    .slice(0, 2)
    .flatMap(({ corners }) => corners.map(({ y }) => y));
  expect(Math.min(...ys)).toBe(7);
  expect(Math.max(...ys)).toBe(13);
});

test("a character without a shape is an empty frame, one cell wide", () => {
  expect(hasGlyph("字")).toBe(false);
  expect(rowPath("字")).toBe(rowPath("\u{1f6f8}"));
  expect(rowPath("字")).not.toBe("");
  expect(inkOf(amidst(" \u{1f6f8}"))).toEqual(inkOf(amidst(" 字")));
});

test("printed lines are as wide as their letters, with blanks between words", () => {
  const wide = printedLine("mm", 1).width;
  expect(printedLine("ii", 1).width).toBeLessThan(wide);
  expect(printedLine("m m", 1).width).toBeGreaterThan(wide);
  expect(printedLine("", 1)).toEqual({ path: "", width: 0 });
  // The ink of H goes from 2 - 1 to 10 + 1 in its cell.
  expect(printedLine("H", 1).width).toBe(10);
});

test("paths are short, and the same every time", () => {
  const line = "LQ 98% 22.4V -71dBm";
  expect(rowPath(line).length / line.length).toBeLessThan(170);
  expect(rowPath(line)).toMatch(/^[MhvlazA-Z0-9 .-]+$/);
  expect(rowPath(line)).not.toContain("NaN");
  expect(rowPath(`${line}`)).toBe(rowPath(line));
});

test("any text gives a path that an independent renderer can draw, with ink for every letter that is not blank", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 12 }), (text) => {
      const path = rowPath(text);
      expect(path).toMatch(/^(?:M-?[\d.]+ -?[\d.]+(?:[hv]-?[\d.]+|[la][-\d. ]+)+z)*$/);
      const starts = [...path.matchAll(/M(-?[\d.]+) /g)].map(([, x]) => Math.floor(Number(x) / CELL.width));
      const inked = [...text].flatMap((letter, index) => (strokesOf(letter).length > 0 ? [index] : []));
      expect([...new Set(starts)]).toEqual(inked);
    }),
    { numRuns: 300 },
  );
});
