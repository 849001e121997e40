/** Text in a drawing: single lines, and names that wrap. */
import { node, type SceneNode } from "./scene.ts";

/** One line of text; `y` is its baseline. */
export function text(
  className: string,
  x: number,
  y: number,
  size: number,
  content: string,
  anchor: "start" | "middle" | "end" = "start",
): SceneNode {
  const attributes = { class: className, x, y, "font-size": size, "text-anchor": anchor === "start" ? null : anchor };
  return node("text", attributes, [content]);
}

/** A letter's mean width as a share of the font size, in the sans-serif fonts that editors use. */
const LETTER_WIDTH = 0.54;

/** The approximate width of a text at a font size; bold text is slightly wider. */
export function textWidth(text: string, size: number): number {
  return text.length * size * LETTER_WIDTH;
}

/** Names, separated by commas, in lines that fit a width at a font size; a name is never broken. */
export function wrapped(names: readonly string[], width: number, size: number): string[] {
  return filled(
    names.map((name, index) => (index < names.length - 1 ? `${name},` : name)),
    width / (size * LETTER_WIDTH),
  );
}

/** The approximate ratio of the widths of bold and regular letters. */
const BOLD_WIDTH = 1.15;

/** Bold sentences, in lines that fit a width at a font size; a word is never broken. */
export function wrappedBold(sentences: string, width: number, size: number): string[] {
  return filled(sentences.split(" "), width / (size * LETTER_WIDTH * BOLD_WIDTH));
}

/** Words in lines that fit a width at a font size; a word is never broken. */
export function wrappedWords(words: string, width: number, size: number): string[] {
  return filled(words.split(" "), width / (size * LETTER_WIDTH));
}

function filled(pieces: readonly string[], letters: number): string[] {
  const most = Math.max(1, Math.floor(letters));
  const lines: string[] = [];
  for (const piece of pieces) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + piece.length <= most) lines[lines.length - 1] = `${last} ${piece}`;
    else lines.push(piece);
  }
  return lines;
}

/** Lines of text one below the other, the first with its baseline at `y`. */
export function textLines(className: string, x: number, y: number, size: number, all: readonly string[]): SceneNode[] {
  return all.map((line, index) => text(className, x, y + index * lineHeight(size), size, line));
}

/** The distance between two baselines. */
export function lineHeight(size: number): number {
  return Math.round(size * 1.3);
}
