/** Letters as paths: one a cell, as on a character display, or side by side, as in print. */
import { ACCENTS, SHAPES, UNKNOWN } from "./glyph-shapes.ts";
import { type Outline, outlinesOf, readStrokes, type Stroke } from "./outline.ts";

/** Width and height of a letter's cell, in the units of its path; the same as on the character-overlay chips. */
export const CELL = { width: 12, height: 18 } as const;
/** Where a line of capitals begins and ends, in the same units, ink included. */
export const CAPITALS = { top: 2, baseline: 14 } as const;
/** Half the stroke width of the goggles' letters, and the width of the dark edge around it. */
export const PEN = { ink: 1, edge: 1 } as const;

/** True if a character has a shape; without one it is drawn as an empty frame. */
export function hasGlyph(character: string): boolean {
  return shapeOf(character) !== null;
}

const rowCache = new Map<string, string>();
/** More rows than any picture has. The limit bounds the memory while a name is typed. */
const MOST_ROWS = 600;

/** The path of a row of cells, the first with its corner at 0, 0; empty if nothing is visible. */
export function rowPath(row: string): string {
  const known = rowCache.get(row);
  if (known !== undefined) return known;
  let path = "";
  for (const [index, character] of [...row].entries()) path += moved(outlines(character, PEN.ink), index * CELL.width);
  if (rowCache.size >= MOST_ROWS) rowCache.clear();
  rowCache.set(row, path);
  return path;
}

/** Space between letters side by side, and the width of a blank; units of a letter's cell. */
const LETTER_GAP = 1.7;
const BLANK = 5;

export interface PrintedLine {
  readonly path: string;
  readonly width: number;
}

/** A line of letters side by side, from 0 on; `reach` is half the stroke width. Units of a letter's cell. */
export function printedLine(text: string, reach: number): PrintedLine {
  let path = "";
  let x = 0;
  for (const character of text) {
    const span = extent(character);
    if (!span) x += BLANK;
    else {
      path += moved(outlines(character, reach), x - span.left + reach);
      x += span.right - span.left + 2 * reach + LETTER_GAP;
    }
  }
  return { path, width: Math.max(0, x - (text === "" ? 0 : LETTER_GAP)) };
}

function moved(parts: readonly Outline[], byX: number): string {
  let path = "";
  for (const { x, y, rest } of parts) path += `M${Math.round((x + byX) * 100) / 100} ${y}${rest}`;
  return path;
}

const outlineCache = new Map<string, readonly Outline[]>();

function outlines(character: string, reach: number): readonly Outline[] {
  const key = `${reach} ${character}`;
  const known = outlineCache.get(key);
  if (known) return known;
  const made = strokesOf(character).flatMap((stroke) => outlinesOf(stroke, reach));
  if (outlineCache.size >= MOST_ROWS) outlineCache.clear();
  outlineCache.set(key, made);
  return made;
}

/** The leftmost and rightmost corner of a character's strokes; null for a blank. */
function extent(character: string): { readonly left: number; readonly right: number } | null {
  const xs = strokesOf(character).flatMap(({ corners }) => corners.map(({ x }) => x));
  return xs.length === 0 ? null : { left: Math.min(...xs), right: Math.max(...xs) };
}

/** The strokes of a character, in the units of its cell. */
export function strokesOf(character: string): readonly Stroke[] {
  return shapeOf(character) ?? readStrokes(UNKNOWN);
}

/** Capitals are lowered to make room for an accent above them. */
const LOWERED_TOP = 7;

function shapeOf(character: string): readonly Stroke[] | null {
  const own = shape(character);
  if (own !== null) return readStrokes(own);
  const [letter = "", ...marks] = character.normalize("NFD");
  const base = shape(DOTLESS[letter] !== undefined && marks.some(isAbove) ? DOTLESS[letter] : letter);
  if (base === null || marks.length === 0 || marks.some((mark) => !Object.hasOwn(ACCENTS, mark))) return null;
  const strokes = readStrokes(base);
  const tall = marks.some(isAbove) && strokes.some(({ corners }) => corners.some(({ y }) => y < 6));
  return [...(tall ? strokes.map(lowered) : strokes), ...marks.flatMap((mark) => readStrokes(ACCENTS[mark]!))];
}

const DOTLESS: Readonly<Record<string, string>> = { i: "ı" };
/** Characters at other code points with the same shape. */
const TWINS: Readonly<Record<string, string>> = { "\u03bc": "µ", "\u00a0": " ", "\u202f": " ", "\u2126": "Ω" };

function shape(character: string): string | null {
  const name = TWINS[character] ?? character;
  if (Object.hasOwn(SHAPES, name)) return SHAPES[name]!;
  return Object.hasOwn(ACCENTS, name) ? ACCENTS[name]! : null;
}

function isAbove(mark: string): boolean {
  return mark !== "\u0327" && mark !== "\u0328";
}

function lowered({ corners, closed }: Stroke): Stroke {
  const share = (13 - LOWERED_TOP) / 10;
  const lower = corners.map(({ x, y, radius }) => ({ x, y: y < 13 ? 13 - (13 - y) * share : y, radius }));
  return { closed, corners: lower };
}
