/** The value of an entry with one space between its words: nothing of it changes but the blanks, and “µs” becomes “us”. */

import type { Piece } from "../syntax/piece.ts";
import { isSpace } from "../syntax/scanner.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { units } from "./units.ts";

/** A part of a value that may stand in a column with that of the lines around it. */
export interface Cell {
  /** Cells of one name stand below each other; null: this one and those behind it stand in no column. */
  readonly name: string | null;
  readonly text: string;
}

/** What a line of the language says behind its name; by these the value was read. */
export interface ReadValue {
  readonly value: Value | null;
  readonly pieces: readonly Piece[];
}

const known = new WeakMap<readonly Piece[], readonly Cell[]>();

/** The cells of a value. One with a fault is one cell, as it was written. Remembered by the pieces, which belong to one text. */
export function cellsOf(text: string, at: Cols, read: ReadValue | null): readonly Cell[] {
  const asWritten = () => [{ name: null, text: text.slice(at.start, at.end) }];
  if (!read?.value) return asWritten();
  let cells = known.get(read.pieces);
  if (!cells) {
    cells = spaced(text, at, read.value, read.pieces) ?? asWritten();
    known.set(read.pieces, cells);
  }
  return cells;
}

/** Null where something stands there that no piece tells of: it is then left as it was written. */
function spaced(text: string, { start, end }: Cols, value: Value, pieces: readonly Piece[]): Cell[] | null {
  const cells: { name: string | null; text: string }[] = [];
  let next = pieces.findIndex((piece) => piece.start >= start);
  if (next < 0) next = pieces.length;
  let before: Token | null = null;
  for (let column = start; column < end; ) {
    if (isSpace(text.charCodeAt(column))) {
      column++;
      continue;
    }
    const token: Token = pieces[next]?.start === column ? written(text, pieces[next++]!, value) : mark(text, column);
    if (token.kind === "mark" && !MARKS.includes(token.text)) return null;
    column = token.end;
    const name = nameOfCell(token, before, value, cells.length);
    if (name !== undefined) cells.push({ name, text: token.text });
    else cells.at(-1)!.text += separator(before!, token, value) + token.text;
    before = token;
  }
  return cells;
}

interface Token {
  readonly kind: Piece["kind"] | "mark";
  readonly text: string;
  readonly end: number;
}

/** What stands between values without being a word. */
const MARKS = ",()";

function mark(text: string, column: number): Token {
  return { kind: "mark", text: text.charAt(column), end: column + 1 };
}

function written(text: string, { kind, start, end }: Piece, value: Value): Token {
  const word = text.slice(start, end);
  if (kind === "unit") return { kind, text: units.symbol(word) ?? word, end };
  // The blanks of “left + 2”, whose sign belongs to the number.
  if (kind === "number" && value.kind === "cell") return { kind, text: word.replace(/[ \t]+/g, ""), end };
  return { kind, text: word, end };
}

/** The name of the cell that begins with this token; undefined where it goes on with the one before. */
function nameOfCell(token: Token, before: Token | null, value: Value, count: number): string | null | undefined {
  if (value.kind === "fields" && token.kind === "field") return token.text;
  if (value.kind === "control") {
    if (count < CONTROL_COLUMNS.length) return CONTROL_COLUMNS[count];
    if (before?.kind === "channel") return null;
    const begins =
      token.kind === "position" ? before?.text !== "rests" : token.text === "rests" || token.text === "lies";
    return begins && token.kind !== "choice" ? null : undefined;
  }
  return count === 0 ? null : undefined;
}

/** What a control is, and its channel, stand in columns; its positions do not. */
const CONTROL_COLUMNS = ["kind", "channel"];

function separator(before: Token, token: Token, value: Value): string {
  if (token.text === "," || token.text === ")" || before.text === "(") return "";
  return value.kind === "cell" && token.kind === "number" && before.kind === "anchor" ? "" : " ";
}
