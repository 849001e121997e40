/** A layout fitted to another grid, as edits of the scripts. */
import { fitLayout } from "../../osd/fit.ts";
import { layoutOf, placedOn } from "../../osd/layout.ts";
import { type Grid, LARGEST_GRID, NAMED_GRIDS, OSD_PAGES } from "../../protocol/osd.ts";
import type { Value } from "../../syntax/value.ts";
import { movedPlace } from "./osd-place.ts";
import { type LineChange, type OsdEdit, type OsdEditScope, refused, scriptOf, writeAll } from "./osd-write.ts";

/**
 * The grid and every place that is another one on it, of both pages, since they share the grid. A
 * place that means the right cell there as it is written stays untouched; so does the line of an
 * element for which there is no room, which the checks then report.
 */
export function fitted(scene: OsdEditScope, to: Grid): OsdEdit {
  const { craft, workspace } = scene;
  const { columns, rows } = LARGEST_GRID;
  if (!fits(to.columns, columns) || !fits(to.rows, rows))
    return refused(
      `A grid has whole columns and rows, at most ${columns} x ${rows}, so there is no fitting it to ${to.columns} x ${to.rows}.`,
    );
  if (to.columns === scene.grid.columns && to.rows === scene.grid.rows) return { kind: "edits", files: [] };
  const changes: LineChange[] = [gridChange(scene, to)];
  for (const section of OSD_PAGES) {
    const layout = layoutOf(craft, workspace.catalogue, section);
    const placed = placedOn(craft, section);
    for (const box of layout ? fitLayout(layout, to).layout.elements : []) {
      const { source } = box;
      const value = placed.get(box.name)?.value;
      if (value?.kind !== "cell") continue;
      const line = { number: source.line, text: scriptOf(scene, source).tree.lines[source.line]!.text };
      const edits = movedPlace(line, value, box, to);
      if ("why" in edits) return refused(`${box.name} cannot be fitted: ${edits.why}.`);
      changes.push({ source, section, edits });
    }
  }
  return writeAll(scene, changes);
}

function fits(cells: number, most: number): boolean {
  return Number.isInteger(cells) && cells >= 1 && cells <= most;
}

function gridChange(scene: OsdEditScope, to: Grid): LineChange {
  const { value, source } = scene.craft.settings.get("osd")!.get("grid")!;
  const line = scriptOf(scene, source).tree.lines[source.line]!.text;
  const { start, end } = value!;
  const text = gridText(value!, line.slice(start, end), to);
  const range = { start: { line: source.line, character: start }, end: { line: source.line, character: end } };
  return { source, section: "osd", edits: [{ range, text }] };
}

/** As the script has it so far: a name stays a name where the new grid has one, a size keeps its blanks. */
function gridText({ kind }: Value, said: string, { columns, rows }: Grid): string {
  const named = Object.entries(NAMED_GRIDS).find(([, grid]) => grid.columns === columns && grid.rows === rows);
  if (kind === "choice" && named) return named[0];
  const times = /[ \t]*x[ \t]*/.exec(kind === "size" ? said : "") ?? [" x "];
  return `${columns}${times[0]}${rows}`;
}
