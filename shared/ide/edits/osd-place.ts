/** Places of OSD elements as text: changed in the style in which they are written, or written new. */
import type { CellBox } from "../../draw/moving.ts";
import { resolveAxis } from "../../osd/layout.ts";
import type { Grid } from "../../osd/placed.ts";
import type { TextEdit } from "../../syntax/span.ts";
import type { Axis, ValueOf } from "../../syntax/value.ts";

/** The largest offset that the language accepts, so that a typing error cannot make huge numbers. */
export const MOST_CELLS_A_SIDE = 9999;

/** Why a place cannot be written with its anchors, in a sentence. */
export interface PlaceProblem {
  readonly why: string;
}

/**
 * The edits of a place on its line, one for each axis that changes. The anchor and the spacing around
 * the sign stay; an axis without an anchor stays without one.
 */
export function movedPlace(
  line: { readonly number: number; readonly text: string },
  place: ValueOf<"cell">,
  to: CellBox,
  grid: Grid,
): TextEdit[] | PlaceProblem {
  const edits: TextEdit[] = [];
  const column = { axis: place.column, cell: to.column, cells: grid.columns, size: to.width, other: place.row };
  const row = { axis: place.row, cell: to.row, cells: grid.rows, size: to.height, other: place.column };
  for (const { axis, cell, cells, size, other } of [column, row]) {
    const offset = cell - resolveAxis({ ...axis, offset: 0 }, cells, size);
    if (offset === axis.offset) continue;
    if (axis.anchor === null && offset < 0)
      return {
        why: "its place is counted from the left and the top, which a place beyond them cannot be: write it with an anchor such as “left-1”",
      };
    if (Math.abs(offset) > MOST_CELLS_A_SIDE)
      return { why: `a place counts up to ${MOST_CELLS_A_SIDE} cells, and no grid has so many` };
    const text = axisText(axis, offset, spacing(line.text, axis) ?? spacing(line.text, other) ?? ["", ""]);
    const start = { line: line.number, character: axis.start };
    edits.push({ range: { start, end: { line: line.number, character: axis.end } }, text });
  }
  return edits;
}

function axisText({ anchor }: Axis, offset: number, [before, after]: readonly [string, string]): string {
  if (anchor === null) return String(offset);
  if (offset === 0) return anchor;
  return `${anchor}${before}${offset < 0 ? "-" : "+"}${after}${Math.abs(offset)}`;
}

/** The blanks before and after the sign of an axis; null where it has no sign. */
function spacing(line: string, { start, end }: Axis): [string, string] | null {
  const found = /^[a-z]+([ \t]*)[+-]([ \t]*)\d+$/.exec(line.slice(start, end));
  return found && [found[1]!, found[2]!];
}

/**
 * A place as a pilot would write it: from the nearest edge, where that is within a third of the
 * grid, else from the centre; exactly in the centre without an offset.
 */
export function anchoredPlace({ column, row, width, height }: CellBox, { columns, rows }: Grid): string {
  return `${anchoredAxis(column, columns, width, ["left", "centre", "right"])}, ${anchoredAxis(row, rows, height, ["top", "middle", "bottom"])}`;
}

type Anchors = readonly [first: string, middle: string, last: string];

function anchoredAxis(cell: number, cells: number, size: number, [first, middle, last]: Anchors): string {
  const fromMiddle = cell - Math.floor((cells - size) / 2);
  const toEnd = cells - size - cell;
  if (fromMiddle === 0) return middle;
  const nearest = Math.min(cell, toEnd);
  if (nearest > cells / 3) return anchorWithOffset(middle, fromMiddle);
  return cell <= toEnd ? anchorWithOffset(first, cell) : anchorWithOffset(last, -toEnd);
}

function anchorWithOffset(anchor: string, offset: number): string {
  if (offset === 0) return anchor;
  return offset > 0 ? `${anchor}+${offset}` : `${anchor}${offset}`;
}
