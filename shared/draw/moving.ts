/** The geometry of moving an element: whole cells, counted from 0 at the top left of the grid. */
import { type Grid, type GridCell, MOST_CELLS } from "../protocol/osd.ts";
import type { GogglesPicture, PanelElement } from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";

export interface CellBox extends GridCell {
  readonly width: number;
  readonly height: number;
}

type Solid = CellBox & Pick<PanelElement, "name" | "overlapsNothing">;

/**
 * Where an element is after it was moved by so many cells: on the grid, and whole if
 * it fits. An axis along which it is not moved stays unchanged, even outside the grid.
 */
export function movedBy(box: CellBox, by: GridCell, grid: Grid): GridCell {
  return {
    column: by.column === 0 ? box.column : onAxis(box.column + by.column, box.width, grid.columns),
    row: by.row === 0 ? box.row : onAxis(box.row + by.row, box.height, grid.rows),
  };
}

function onAxis(start: number, size: number, cells: number): number {
  return Math.max(0, Math.min(start, cells - size));
}

/** What is wrong with an element at its place. */
export interface ElementClash {
  /** Its cells that another element uses too, or that are outside the grid, as column and row. */
  readonly cells: readonly (readonly [number, number])[];
  /** The elements that it shares cells with. */
  readonly sharers: readonly string[];
  readonly leavesGrid: boolean;
}

/** Where an element clashes, given the places of all. Elements made to lie over others share cells without a clash. */
export function elementClash(element: Solid, elements: readonly Solid[], grid: Grid): ElementClash {
  const others = element.overlapsNothing
    ? []
    : elements.filter((other) => other.name !== element.name && !other.overlapsNothing && overlap(element, other));
  const inside = offGridCells(element, grid) === 0;
  if (inside && others.length === 0) return { cells: [], sharers: [], leavesGrid: false };
  const cells = cellsIn(element).filter(
    ([column, row]) => isOff(column, row, grid) || others.some((other) => covers(other, column, row)),
  );
  return { cells, sharers: others.map(({ name }) => name), leavesGrid: !inside };
}

function overlap(a: CellBox, b: CellBox): boolean {
  return (
    a.column < b.column + b.width &&
    b.column < a.column + a.width &&
    a.row < b.row + b.height &&
    b.row < a.row + a.height
  );
}

function covers(box: CellBox, column: number, row: number): boolean {
  return column >= box.column && column < box.column + box.width && row >= box.row && row < box.row + box.height;
}

function isOff(column: number, row: number, grid: Grid): boolean {
  return column < 0 || row < 0 || column >= grid.columns || row >= grid.rows;
}

function offGridCells(box: CellBox, grid: Grid): number {
  const across = Math.min(box.column + box.width, grid.columns) - Math.max(box.column, 0);
  const down = Math.min(box.row + box.height, grid.rows) - Math.max(box.row, 0);
  return box.width * box.height - Math.max(0, across) * Math.max(0, down);
}

function cellsIn({ column, row, width, height }: CellBox): [number, number][] {
  return Array.from({ length: width * height }, (_, index) => [
    column + (index % width),
    row + Math.floor(index / width),
  ]);
}

/** The element at a cell: the preferred one if it covers the cell, else the smallest. */
export function elementAt<T extends CellBox & { readonly name: string }>(
  elements: readonly T[],
  { column, row }: GridCell,
  preferred: string | null,
): T | null {
  const there = elements.filter((element) => covers(element, column, row));
  const bySize = there.toSorted((a, b) => a.width * a.height - b.width * b.height);
  return there.find(({ name }) => name === preferred) ?? bySize[0] ?? null;
}

/**
 * The free place for an element of that size that is nearest to the middle of the left edge: inside the
 * safe area if there is one, and no nearer to the edge than the layout's own elements. Without any free
 * place, or on a grid with more cells than any may have, the middle of the left edge.
 */
export function freePlace(
  picture: GogglesPicture,
  size: { readonly width: number; readonly height: number },
): GridCell {
  const { columns, rows, safe } = picture;
  const wholeGrid = { left: 0, top: 0, right: columns - 1, bottom: rows - 1 };
  const solid = picture.elements.filter(({ overlapsNothing }) => !overlapsNothing);
  // A cell is taller than it is wide, so distances are compared as they appear in the picture.
  const cellHeight = columns / picture.aspect / rows;
  const margin = Math.max(safe?.left ?? 0, leftMargin(solid, columns));
  const areas = columns * rows > MOST_CELLS ? [] : [{ ...(safe ?? wholeGrid), left: margin }, wholeGrid];
  for (const { left, top, right, bottom } of areas) {
    const preferred = { column: left, row: Math.floor((rows - size.height) / 2) };
    let best: GridCell | null = null;
    let bestAway = Number.POSITIVE_INFINITY;
    for (let row = top; row + size.height - 1 <= bottom; row++) {
      for (let column = left; column + size.width - 1 <= right; column++) {
        const away = Math.hypot(column - preferred.column, (row - preferred.row) * cellHeight);
        if (away >= bestAway || solid.some((other) => overlap({ column, row, ...size }, other))) continue;
        [best, bestAway] = [{ column, row }, away];
      }
    }
    if (best) return best;
  }
  return { column: 0, row: onAxis(Math.floor((rows - size.height) / 2), size.height, rows) };
}

/** The columns that a layout leaves free at the left, up to a sixth of the grid. */
function leftMargin(elements: readonly CellBox[], columns: number): number {
  const starts = elements.map(({ column }) => column).filter((column) => column >= 0);
  return starts.length === 0 ? 0 : Math.min(Math.floor(columns / 6), ...starts);
}

const AXIS = /^(?:(left|centre|right|top|middle|bottom)(?:(\s*)([+-])(\s*)(\d+))?|(\d+))$/;

/**
 * How a place is written after it was moved by so many cells; its anchors stay.
 * Null if the place cannot be read.
 */
export function placedAfter(placed: string, by: GridCell): string | null {
  const [column, row, ...rest] = placed.split(",");
  if (column === undefined || row === undefined || rest.length > 0) return null;
  const axes = [shifted(column.trim(), by.column), shifted(row.trim(), by.row)];
  return axes.includes(null) ? null : axes.join(", ");
}

function shifted(axis: string, by: number): string | null {
  const found = AXIS.exec(axis);
  if (!found) return null;
  const [, anchor, before = "", sign, after = "", count, absolute] = found;
  if (anchor === undefined) return String(Number(absolute) + by);
  const offset = (sign === "-" ? -Number(count) : Number(count ?? 0)) + by;
  if (offset === 0) return anchor;
  return `${anchor}${before}${offset < 0 ? "-" : "+"}${after}${Math.abs(offset)}`;
}

/** Where an element is while it moves, as in “column 12, row 3”; the middle of the grid is named. */
export function placeInWords(box: CellBox, grid: Grid): string {
  const centred = box.column === Math.floor((grid.columns - box.width) / 2) ? " (centre)" : "";
  const middle = box.row === Math.floor((grid.rows - box.height) / 2) ? " (middle)" : "";
  return `column ${box.column}${centred}, row ${box.row}${middle}`;
}

/** The clash in words, as in “shares cells with amps”; empty if there is none. */
export function clashInWords({ sharers, leavesGrid }: ElementClash): string {
  const parts: string[] = [];
  if (sharers.length > 3) parts.push(`shares cells with ${sharers[0]} and ${sharers.length - 1} more`);
  else if (sharers.length > 0) parts.push(`shares cells with ${joinWithAnd(sharers)}`);
  if (leavesGrid) parts.push("leaves the grid");
  return parts.join("; ");
}
