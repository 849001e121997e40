/** A wide table for a narrow page: its columns in blocks, each with the names of the rows. */
import { columnsOf, cutAt } from "./columns.ts";

export interface Head {
  readonly name: string;
  /** A line below the block; null without. */
  readonly note: string | null;
}

export interface Line {
  readonly name: string;
  readonly cells: readonly string[];
}

const INDENT = "  ";
const GAP = "  ";
/** Of the width at most so much for the names of the rows, and for one cell. */
const MOST_OF_NAMES = 0.4;

/** Each block as text, its lines at most `width` columns of a terminal where that is possible at all. */
export function tableBlocks(heads: readonly Head[], lines: readonly Line[], width: number): string[] {
  const names = wrapped(
    lines.map(({ name }) => name),
    Math.max(8, Math.floor(width * MOST_OF_NAMES)),
  );
  const room = Math.max(16, width - INDENT.length - names.width - GAP.length);
  const columns = heads.map(({ name }, i) => wrapped([name, ...lines.map(({ cells }) => cells[i] ?? "")], room));
  return blocksOf(
    columns.map((each) => each.width),
    room,
  ).map((block) => {
    const shown = block.map((i) => columns[i]!);
    const rows = [undefined, ...lines.keys()].map((row) =>
      rowText(
        [
          row === undefined ? [""] : names.texts[row]!,
          ...shown.map(({ texts }) => texts[row === undefined ? 0 : row + 1]!),
        ],
        [names.width, ...shown.map((each) => each.width)],
      ),
    );
    const notes = block.flatMap((i) => heads[i]!.note ?? []);
    const below = notes.flatMap((note) => breakText(note, width - INDENT.length));
    return [...rows, ...below.map((line) => `${INDENT}${line}\n`)].join("");
  });
}

interface Wrapped {
  /** The lines of each text. */
  readonly texts: readonly (readonly string[])[];
  readonly width: number;
}

function wrapped(texts: readonly string[], most: number): Wrapped {
  const all = texts.map((text) => breakText(text, most));
  return { texts: all, width: Math.max(...all.flat().map(columnsOf), 1) };
}

/** As many columns in a block as fit; one at least. */
function blocksOf(widths: readonly number[], room: number): number[][] {
  const blocks: number[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const [i, width] of widths.entries()) {
    if (used + GAP.length + width > room) {
      blocks.push([i]);
      used = width;
    } else {
      blocks.at(-1)!.push(i);
      used += GAP.length + width;
    }
  }
  return blocks;
}

function rowText(cells: readonly (readonly string[])[], widths: readonly number[]): string {
  const height = Math.max(...cells.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) => {
    const parts = cells.map((lines, i) => padded(lines[line] ?? "", widths[i]!));
    return `${INDENT}${parts.join(GAP).trimEnd()}\n`;
  }).join("");
}

/** A paragraph of lines that are at most so wide; those after the first are set in. */
export function paragraph(text: string, width: number): string {
  const [first = "", ...rest] = breakText(text, width);
  const more = rest.length === 0 ? [] : breakText(rest.join(" "), width - INDENT.length);
  return [first, ...more.map((line) => INDENT + line)].map((line) => `${line}\n`).join("");
}

/** Broken at spaces, and inside of a word only where it is longer than a line. */
function breakText(text: string, most: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && columnsOf(line) + 1 + columnsOf(word) > most) {
      lines.push(line);
      line = "";
    }
    line = line === "" ? word : `${line} ${word}`;
    while (columnsOf(line) > most) {
      const [beginning, rest] = cutAt(line, most);
      if (rest === "") break;
      lines.push(beginning);
      line = rest;
    }
  }
  return [...lines, line];
}

function padded(text: string, width: number): string {
  return text + " ".repeat(Math.max(0, width - columnsOf(text)));
}
