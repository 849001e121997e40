/** Where the keys lead in a table whose cells are gone through one by one. */

/** Row 0 is that of the headings, column 0 that of the names. */
export interface At {
  readonly row: number;
  readonly column: number;
}

interface Size {
  /** Without the headings and the names. */
  readonly rows: number;
  readonly columns: number;
  /** How many rows a page goes on. */
  readonly pageRows: number;
}

/** The cell to which a key leads; null where the key means nothing here, or leads nowhere. */
export function movedBy(
  { key, ctrlKey, metaKey, shiftKey }: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "shiftKey">,
  { row, column }: At,
  { rows, columns, pageRows }: Size,
): At | null {
  if (shiftKey) return null;
  const far = ctrlKey || metaKey;
  const next = toward(key, far, { row, column }, { rows, columns, pageRows });
  if (!next) return null;
  const at = { row: clamp(next.row, rows), column: clamp(next.column, columns) };
  return at.row === row && at.column === column ? null : at;
}

function toward(key: string, far: boolean, { row, column }: At, { rows, columns, pageRows }: Size): At | null {
  switch (key) {
    case "ArrowUp":
      return { row: far ? 0 : row - 1, column };
    case "ArrowDown":
      return { row: far ? rows : row + 1, column };
    case "ArrowLeft":
      return { row, column: far ? 0 : column - 1 };
    case "ArrowRight":
      return { row, column: far ? columns : column + 1 };
    case "Home":
      return { row: far ? 0 : row, column: 0 };
    case "End":
      return { row: far ? rows : row, column: columns };
    case "PageUp":
      return { row: Math.max(Math.min(row, 1), row - pageRows), column };
    case "PageDown":
      return { row: row + pageRows, column };
    default:
      return null;
  }
}

function clamp(value: number, most: number): number {
  return Math.min(Math.max(value, 0), most);
}
