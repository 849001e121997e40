/** Parses sizes and places of the OSD, and dates. */
import { addPiece, describeNext, type Fault, fault, nextCols, type ReadContext } from "./read-context.ts";
import type { Cols } from "./span.ts";
import type { Anchor, Axis, ValueOf } from "./value.ts";

const COLUMN = /(left|centre|right)(?![A-Za-z0-9_])/y;
const ROW = /(top|middle|bottom)(?![A-Za-z0-9_])/y;
const INTEGER = /\d+(?![A-Za-z0-9_.])/y;
const TIMES = /x[ \t]*(?=\d)/y;
/** Far beyond any grid; the limit keeps mistyped numbers out of the arithmetic. */
const MOST_READABLE = 9999;
const DATE = /\d{4}-\d{2}-\d{2}(?![A-Za-z0-9_-])/y;

/** Parses a size, `integer x integer`: columns, then rows. */
export function readSize(context: ReadContext): ValueOf<"size"> | Fault {
  const { scan } = context;
  const start = scan.at();
  const columns = scan.match(/\d+/y);
  const times = columns && scan.match(TIMES);
  const rows = times && scan.match(INTEGER);
  if (!columns || !times || !rows) {
    return fault(
      "wrong-type",
      { start, end: scan.rest().end || start },
      `A size is expected here, columns and rows as in “53 x 20”, but ${describeNext(context)}.`,
    );
  }
  if (Math.max(Number(columns.text), Number(rows.text)) > MOST_READABLE) return tooManyCells({ start, end: rows.end });
  addPiece(context, "number", columns);
  addPiece(context, "operator", { start: times.start, end: times.start + 1 });
  addPiece(context, "number", rows);
  return { kind: "size", columns: Number(columns.text), rows: Number(rows.text), start, end: rows.end };
}

/** Parses a place, `axis , axis`: column and row, each relative to an edge or the centre, or counted from 0. */
export function readCell(context: ReadContext): ValueOf<"cell"> | Fault {
  const { scan } = context;
  const start = scan.at();
  const column = readAxis(context, COLUMN, ROW);
  if (!column)
    return placeFault(
      context,
      "The column of a place is expected here: a count from 0, or left, centre or right, as in “left+2”",
    );
  if ("kind" in column) return column;
  const comma = scan.mark(",");
  if (!comma) return placeFault(context, "A place has a column, a comma and a row, as in “left+2, bottom-1”");
  const row = readAxis(context, ROW, COLUMN);
  if (!row)
    return placeFault(
      context,
      "The row of a place is expected here: a count from 0, or top, middle or bottom, as in “bottom-1”",
    );
  if ("kind" in row) return row;
  return { kind: "cell", column, row, start, end: row.end };
}

function readAxis(context: ReadContext, expected: RegExp, other: RegExp): Axis | Fault | null {
  const { scan } = context;
  const anchor = scan.match(expected);
  if (!anchor) {
    const crossed = scan.match(other);
    if (crossed) {
      return fault(
        "wrong-type",
        crossed,
        `“${crossed.text}” belongs to the other axis: a place is a column (left, centre, right), then a row (top, middle, bottom).`,
      );
    }
    const count = scan.match(INTEGER);
    if (!count) return null;
    if (Number(count.text) > MOST_READABLE) return tooManyCells(count);
    addPiece(context, "number", count);
    return { anchor: null, offset: Number(count.text), start: count.start, end: count.end };
  }
  addPiece(context, "anchor", anchor);
  const sign = scan.mark("+-");
  if (!sign) return { anchor: anchor.text as Anchor, offset: 0, start: anchor.start, end: anchor.end };
  const count = scan.match(INTEGER);
  if (!count) return placeFault(context, `A number of cells is expected after “${sign.text}”`);
  if (Number(count.text) > MOST_READABLE) return tooManyCells(count);
  addPiece(context, "number", { start: sign.start, end: count.end });
  const offset = Number(count.text) * (sign.text === "-" ? -1 : 1);
  return { anchor: anchor.text as Anchor, offset: offset || 0, start: anchor.start, end: count.end };
}

function tooManyCells(count: Cols): Fault {
  return fault("wrong-type", count, `No grid has so many cells: a place counts up to ${MOST_READABLE}.`);
}

function placeFault(context: ReadContext, expected: string): Fault {
  return fault("wrong-type", nextCols(context), `${expected}; ${describeNext(context)}.`);
}

/** Parses a date, `dddd-dd-dd`, that exists in the calendar. */
export function readDate(context: ReadContext): ValueOf<"date"> | Fault {
  const word = context.scan.match(DATE);
  if (!word)
    return fault(
      "wrong-type",
      nextCols(context),
      `A date is expected here, year-month-day as in “2026-05-01”, but ${describeNext(context)}.`,
    );
  addPiece(context, "date", word);
  const date = new Date(`${word.text}T00:00:00Z`);
  if (Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== word.text) {
    return fault("wrong-type", word, `The calendar has no day ${word.text}.`);
  }
  return { kind: "date", date: word.text, start: word.start, end: word.end };
}
