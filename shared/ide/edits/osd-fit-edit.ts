/** A layout fitted to another grid, as edits of the scripts. */
import { fitLayout } from "../../osd/fit.ts";
import { layoutOf, placedOn } from "../../osd/layout.ts";
import { type Grid, LARGEST_GRID, NAMED_GRIDS, OSD_PAGES } from "../../protocol/osd.ts";
import type { Value } from "../../syntax/value.ts";
import { movedPlace } from "./osd-place.ts";
import { type LineChange, type OsdEdit, type OsdEditScope, refusal, scriptOfSource, writeAll } from "./osd-write.ts";

/**
 * Changes the grid, and the places that must change with it, on both pages, since they share the grid. A
 * place that gives the right cell as it is written stays unchanged; so does the line of an element for
 * which there is no room, which the checks then report.
 */
export function fitToGrid(scope: OsdEditScope, to: Grid): OsdEdit {
  const { craft, workspace } = scope;
  const { columns, rows } = LARGEST_GRID;
  if (!isGridSide(to.columns, columns) || !isGridSide(to.rows, rows))
    return refusal(
      `A grid has whole columns and rows, at most ${columns} x ${rows}, so there is no fitting it to ${to.columns} x ${to.rows}.`,
    );
  if (to.columns === scope.grid.columns && to.rows === scope.grid.rows) return { kind: "edits", files: [] };
  const changes: LineChange[] = [gridChange(scope, to)];
  for (const section of OSD_PAGES) {
    const layout = layoutOf(craft, workspace.catalogue, section);
    const placed = placedOn(craft, section);
    for (const box of layout ? fitLayout(layout, to).layout.elements : []) {
      const { source } = box;
      const value = placed.get(box.name)?.value;
      if (value?.kind !== "cell") continue;
      const line = { number: source.line, text: scriptOfSource(scope, source).tree.lines[source.line]!.text };
      const edits = movedPlace(line, value, box, to);
      if ("why" in edits) return refusal(`${box.name} cannot be fitted: ${edits.why}.`);
      changes.push({ source, section, edits });
    }
  }
  return writeAll(scope, changes);
}

function isGridSide(cells: number, most: number): boolean {
  return Number.isInteger(cells) && cells >= 1 && cells <= most;
}

function gridChange(scope: OsdEditScope, to: Grid): LineChange {
  const { value, source } = scope.craft.settings.get("osd")!.get("grid")!;
  const line = scriptOfSource(scope, source).tree.lines[source.line]!.text;
  const { start, end } = value!;
  const text = gridText(value!, line.slice(start, end), to);
  const range = { start: { line: source.line, character: start }, end: { line: source.line, character: end } };
  return { source, section: "osd", edits: [{ range, text }] };
}

/**
 * The new grid in the style of the old text: a name stays a name where the new grid has one, a size keeps its blanks.
 */
function gridText({ kind }: Value, written: string, { columns, rows }: Grid): string {
  const named = Object.entries(NAMED_GRIDS).find(([, grid]) => grid.columns === columns && grid.rows === rows);
  if (kind === "choice" && named) return named[0];
  const times = /[ \t]*x[ \t]*/.exec(kind === "size" ? written : "") ?? [" x "];
  return `${columns}${times[0]}${rows}`;
}
