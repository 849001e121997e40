/** Places of the OSD as rules write of them, and repairs that move an element. */
import type { Workspace } from "../model/workspace.ts";
import { freePlaceFor } from "../osd/nearby.ts";
import type { CellArea, Layout, PlacedElement } from "../osd/types.ts";
import { printAxis } from "../syntax/print-value.ts";
import type { Fix } from "../syntax/span.ts";

/** Moves the element to the nearest free place within an area; nothing where there is none. */
export function moveInto(area: CellArea, placed: PlacedElement, layout: Layout, workspace: Workspace): Fix[] {
  const moved = freePlaceFor(placed, layout, area);
  const { line, file } = placed.source;
  const node = workspace.script(file)?.tree.lines[line]?.node;
  if (!moved || node?.kind !== "entry") return [];
  const start = placed.place.column.start;
  const end = placed.place.row.end;
  const text = `${printAxis(moved.place.column)}, ${printAxis(moved.place.row)}`;
  const range = { start: { line, character: start }, end: { line, character: end } };
  return [{ title: `Move ${placed.name} to ${text}`, edits: [{ range, text }] }];
}

/** “columns 2 to 27 and rows 1 to 14”. */
export function areaInWords({ left, top, right, bottom }: CellArea): string {
  return `columns ${left} to ${right} and rows ${top} to ${bottom}`;
}
