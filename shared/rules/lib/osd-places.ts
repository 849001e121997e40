/** Areas of the OSD in words, and repairs that move an element. */
import type { Craft } from "../../model/craft.ts";
import { freePlaceFor } from "../../osd/free-place.ts";
import type { CellArea, Layout, PlacedElement } from "../../osd/placed.ts";
import { printAxis } from "../../syntax/print-value.ts";
import type { Fix } from "../../syntax/span.ts";

/**
 * A repair that moves the element to the nearest free place within an area, if there is one. A line
 * of a layer is not changed: other craft use it too, and a fix is applied without asking.
 */
export function moveInto(area: CellArea, placed: PlacedElement, layout: Layout, craft: Craft): Fix[] {
  const { line, file } = placed.source;
  const moved = file === craft.file ? freePlaceFor(placed, layout, area) : null;
  if (!moved) return [];
  const { column, row } = placed.place;
  const text = `${printAxis(moved.place.column)}, ${printAxis(moved.place.row)}`;
  const range = { start: { line, character: column.start }, end: { line, character: row.end } };
  return [{ title: `Move ${placed.name} to ${text}`, edits: [{ range, text }] }];
}

/** “columns 2 to 27 and rows 1 to 14”. */
export function areaInWords({ left, top, right, bottom }: CellArea): string {
  return `columns ${left} to ${right} and rows ${top} to ${bottom}`;
}
