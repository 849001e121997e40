/** Lines of a script whose parts stand in columns: names before values, fields below fields, comments below comments. */
import type { Cell } from "./value-cells.ts";

/** A line of a run: what stands between two blank lines, within a section. */
export interface Row {
  readonly line: number;
  /** With its indent. */
  readonly head: string;
  /** Behind the head; none where nothing stands there, or where it follows the head in no column. */
  readonly cells: readonly Cell[];
  /** The comment at the end of the line, and the column on a screen in which it stood; null without. */
  readonly comment: { readonly text: string; readonly column: number } | null;
}

/** Between a name and its value, two fields, or a value and its comment. */
const GAP = "  ";

/** What is wider stands in no column: it would push all others away. */
const WIDEST = 66;

/** The lines of a run, each with its number, as they are laid out. */
export function layOutRun(rows: readonly Row[]): { readonly line: number; readonly text: string }[] {
  const withCells = rows.filter(({ cells }) => cells.length > 0);
  const width = widest(withCells.map(({ head }) => head.length));
  const values = new Map<Row, string[]>(withCells.map((row) => [row, row.cells.map(({ text }) => text)]));
  padColumn(withCells, 0, values);
  const bare = rows.map((row) => {
    const value = values.get(row);
    return value ? `${row.head.padEnd(width)}${GAP}${value.join(GAP)}` : row.head;
  });
  const columns = commentColumns(rows, bare);
  return rows.map(({ line, comment }, i) => ({
    line,
    text: comment ? bare[i]! + " ".repeat(columns[i]! - columnAt(bare[i]!)) + comment.text : bare[i]!,
  }));
}

const TAB = 8;

/** The column on a screen behind a text, or behind so many characters of it: a tab leads to the next eighth one. */
export function columnAt(text: string, end = text.length): number {
  let column = 0;
  for (let i = 0; i < end; i++) column += text.charCodeAt(i) === 9 ? TAB - (column % TAB) : 1;
  return column;
}

function widest(widths: readonly number[]): number {
  let most = 0;
  for (const width of widths) if (width <= WIDEST && width > most) most = width;
  return most;
}

/** Pads the cells of one column, and of those behind it, where neighbouring rows have cells of the same names up to there. */
function padColumn(rows: readonly Row[], column: number, values: ReadonlyMap<Row, string[]>): void {
  let group: Row[] = [];
  const end = () => {
    if (group.length > 1) {
      const followed = group.filter(({ cells }) => cells.length > column + 1);
      const width = widest(followed.map(({ cells }) => cells[column]!.text.length));
      for (const row of followed) {
        const cells = values.get(row)!;
        cells[column] = cells[column]!.padEnd(width);
      }
      padColumn(followed, column + 1, values);
    }
    group = [];
  };
  for (const row of rows) {
    const name = row.cells[column]?.name ?? null;
    if (group.length > 0 && group[0]!.cells[column]!.name !== name) end();
    if (name !== null) group.push(row);
  }
  end();
}

/** The column of each comment: below that of the row before where it stood so, else two blanks behind its line. */
function commentColumns(rows: readonly Row[], bare: readonly string[]): number[] {
  const columns = bare.map((text) => columnAt(text) + GAP.length);
  let group: number[] = [];
  const end = () => {
    const most = Math.max(...group.map((i) => columns[i]!));
    for (const i of group) columns[i] = most;
    group = [];
  };
  for (const [i, { comment }] of rows.entries()) {
    if (!comment) continue;
    if (group.length > 0 && rows[group[0]!]!.comment!.column !== comment.column) end();
    group.push(i);
  }
  end();
  return columns;
}
