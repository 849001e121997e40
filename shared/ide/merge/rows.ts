/** Lines with their line ends, as they are taken from one side or the other, and conflicts among them. */
import type { LineEnd } from "../../syntax/tree.ts";

/** A line. `end` is null where it takes the line end of the text that it goes into. */
export interface Row {
  readonly text: string;
  readonly end: LineEnd | null;
}

/** Part of a merged text: lines, or what both sides made of the same lines. */
export type Piece = { readonly kind: "rows"; readonly rows: readonly Row[] } | ConflictPiece;

export interface ConflictPiece {
  readonly kind: "conflict";
  readonly ours: readonly Row[];
  readonly base: readonly Row[];
  readonly theirs: readonly Row[];
  /** What clashes and how, for a person; without a place. */
  readonly why: string;
}

/** How the marks of a conflict are written. */
export interface Marks {
  readonly ours: string;
  readonly base: string;
  readonly theirs: string;
  /** Characters in a mark; git's own default is 7. */
  readonly markerSize: number;
  /** As git's merge.conflictStyle: with `diff3` and `zdiff3` the lines of the base stand in between. */
  readonly style: "merge" | "diff3" | "zdiff3";
}

export function rowsPiece(rows: readonly Row[]): Piece {
  return { kind: "rows", rows };
}

export function isSameText(a: readonly Row[], b: readonly Row[]): boolean {
  return a.length === b.length && a.every((row, i) => row.text === b[i]!.text);
}

/** Rows that take the line end of the text that they go into. */
export function adapted(rows: readonly Row[]): Row[] {
  return rows.map(({ text }) => ({ text, end: null }));
}

/**
 * The text of the pieces. `eol` stands where a row has no line end of its own; the last line has one if `ended`, and
 * behind the mark of a conflict always.
 */
export function textOf(pieces: readonly Piece[], eol: LineEnd, ended: boolean, marks: Marks): string {
  let text = "";
  let last: LineEnd = "";
  const put = (line: string, end: LineEnd | null) => {
    last = end || eol;
    text += line + last;
  };
  const putAll = (rows: readonly Row[]) => {
    for (const row of rows) put(row.text, row.end);
  };
  let closed = true;
  for (const piece of pieces) {
    if (piece.kind === "rows") {
      putAll(piece.rows);
      if (piece.rows.length > 0) closed = ended;
      continue;
    }
    put(mark("<", marks.ours, marks), null);
    putAll(piece.ours);
    if (marks.style !== "merge") {
      put(mark("|", marks.base, marks), null);
      putAll(piece.base);
    }
    put(mark("=", "", marks), null);
    putAll(piece.theirs);
    put(mark(">", marks.theirs, marks), null);
    closed = true;
  }
  return closed ? text : text.slice(0, text.length - last.length);
}

function mark(sign: string, label: string, { markerSize }: Marks): string {
  return sign.repeat(markerSize) + (label === "" ? "" : ` ${label}`);
}
