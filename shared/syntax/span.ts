/**
 * Locations in a script. No statement of the language spans lines, so a location is a line and
 * columns in it. Lines and columns count from 0, columns in UTF-16 code units; ends are exclusive.
 */

/** Columns of one line whose number is known from elsewhere. */
export interface Cols {
  readonly start: number;
  readonly end: number;
}

/** Columns of one line of a script. */
export interface Span extends Cols {
  readonly line: number;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** One replacement in a script. `text` may hold line ends. */
export interface TextEdit {
  readonly range: Range;
  readonly text: string;
}

/** A named repair: what it does, as an instruction to the pilot, and the edits of the same file. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** True where nothing else can have been meant, so that it may be made without asking. */
  readonly certain?: true;
}

/** A span as a range. */
export function rangeOf(span: Span): Range {
  return {
    start: { line: span.line, character: span.start },
    end: { line: span.line, character: span.end },
  };
}

/** The span of some columns on a line. */
export function spanAt(line: number, cols: Cols): Span {
  return { line, start: cols.start, end: cols.end };
}

/** Whether two ranges share a position, if only at their ends. */
export function touches(a: Range, b: Range): boolean {
  return comparePositions(a.start, b.end) <= 0 && comparePositions(b.start, a.end) <= 0;
}

/** Negative if `a` comes before `b`, 0 if they are equal, else positive: a comparator for sorting. */
export function comparePositions(a: Position, b: Position): number {
  return a.line - b.line || a.character - b.character;
}
