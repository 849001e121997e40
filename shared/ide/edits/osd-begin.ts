/** Edits that begin a page of the OSD, or say the grid where only that is missing. */
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { leadsBack } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fitLayout } from "../../osd/fit.ts";
import { gridOf, layoutOf, placedOn } from "../../osd/layout.ts";
import { type Grid, LARGEST_GRID, NAMED_GRIDS, OSD_PAGES, sameGrid } from "../../protocol/osd.ts";
import type { OsdSource } from "../../protocol/osd-edit.ts";
import { printAxis } from "../../syntax/print-value.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { takesBack } from "./osd-beginnings.ts";
import { anchoredPlace } from "./osd-place.ts";
import { canShow, usualAlerts, usualPage } from "./osd-usual-page.ts";
import { type OsdEdit, type OsdEditScope, refusal } from "./osd-write.ts";
import { appendEntries, firstEntry, lineForEntry, type NewEntry, whyNotWritable } from "./script-edits.ts";
import { lineForUse, writeUse } from "./use-line.ts";

/** What is known before there is a grid. */
export type BeginScope = Omit<OsdEditScope, "grid" | "placed">;

/**
 * The edits by which a page begins. They are written in the craft; in a layer only if the picture was drawn for it,
 * after a question where other craft use it too.
 */
export function beginPage(scope: BeginScope, from: OsdSource): OsdEdit {
  const { workspace, craft, page } = scope;
  const said = craft.settings.get("osd")?.get("grid");
  const grid = gridOf(craft);
  if (said && !grid)
    return refusal(`The OSD's grid cannot be read, line ${said.source.line + 1}: mend that line, then begin the page.`);
  if (said && grid && !isGrid(grid)) {
    const { columns, rows } = LARGEST_GRID;
    return refusal(
      `The OSD's grid is ${grid.columns} x ${grid.rows}, line ${said.source.line + 1}, and no viewer has more than ${columns} x ${rows}: correct that line, then begin the page.`,
    );
  }
  if (grid && placedOn(craft, page).size > 0)
    return refusal("This page shows something already: add elements to it, or remove those that are there.");
  if (from.kind === "layer") return useLayer(scope, from.file);
  const laidOut = from.kind === "usual" ? usualEntries(scope, grid, from) : copiedEntries(scope, grid, from.file);
  if (typeof laidOut === "string") return refusal(laidOut);
  const layer = layerOf(scope);
  if (layer && scope.where === null) {
    const sharedWith = workspace.craftFilesWith(layer.file).filter((other) => other !== craft.file);
    if (sharedWith.length > 0)
      return { kind: "choose", layer: layer.name, sharedWith: sharedWith.map((each) => workspace.script(each)!.name) };
  }
  return writeEntries(workspace, layer && scope.where !== "override" ? layer : craft.script, laidOut);
}

/** What is written: the entries by section, and the grid where none is said yet. */
interface LaidOut {
  readonly grid: Grid | null;
  readonly entries: ReadonlyMap<string, readonly NewEntry[]>;
}

function usualEntries({ workspace, craft, page }: BeginScope, said: Grid | null, wanted: Grid): LaidOut | string {
  if (!said && !isGrid(wanted)) {
    const { columns, rows } = LARGEST_GRID;
    return `A grid has whole columns and rows, at most ${columns} x ${rows}, so there is none of ${wanted.columns} x ${wanted.rows}.`;
  }
  const grid = said ?? { columns: wanted.columns, rows: wanted.rows };
  // Elements that are there already wait for nothing but the grid.
  if (!said && OSD_PAGES.some((each) => placedOn(craft, each).size > 0)) return { grid, entries: new Map() };
  const elements = usualPage(craft, workspace, page, grid).map(
    (box): NewEntry => ({ name: box.name, rest: `at ${anchoredPlace(box, grid)}` }),
  );
  if (elements.length === 0) return `A grid of ${grid.columns} x ${grid.rows} has no room for any element.`;
  const alerts = craft.settings.get("osd")?.has("alert-on") === true || page !== "osd";
  const settings: NewEntry[] = alerts ? [] : [{ name: "alert-on", rest: usualAlerts(craft) }];
  return { grid: said ? null : grid, entries: bySection(page, settings, elements) };
}

function copiedEntries({ workspace, craft, page }: BeginScope, said: Grid | null, file: string): LaidOut | string {
  const model = file === craft.file ? null : workspace.craft(file);
  const layout = model && layoutOf(model, workspace.catalogue, page);
  if (!model || !layout || layout.elements.length === 0)
    return "That craft does not lay out this page (any more), so there is nothing to copy.";
  const grid = said ?? layout.grid;
  const fitted = sameGrid(grid, layout.grid) ? layout : fitLayout(layout, grid).layout;
  const shown = fitted.elements.filter(({ element }) => canShow(craft, element));
  if (shown.length === 0) return `Nothing that ${model.name} shows there can be shown on ${craft.name}.`;
  const elements = shown.map(
    ({ name, place }): NewEntry => ({ name, rest: `at ${printAxis(place.column)}, ${printAxis(place.row)}` }),
  );
  const alerts = page === "osd" && !craft.settings.get("osd")?.has("alert-on") && alertsOf(model, craft);
  const settings: NewEntry[] = alerts ? [{ name: "alert-on", rest: alerts }] : [];
  return { grid: said ? null : grid, entries: bySection(page, settings, elements) };
}

/** The alerts of a craft if the other can have them all, else the usual ones; null where it says none. */
function alertsOf(model: Craft, craft: Craft): string | null {
  const said = model.settings.get("osd")?.get("alert-on");
  return said?.value ? usualAlerts(craft) : null;
}

/** Settings belong to the first page's section, whichever page is begun. */
function bySection(page: string, settings: readonly NewEntry[], elements: readonly NewEntry[]): LaidOut["entries"] {
  const entries = new Map<string, readonly NewEntry[]>(settings.length > 0 ? [[OSD_PAGES[0]!, settings]] : []);
  entries.set(page, [...(entries.get(page) ?? []), ...elements]);
  return entries;
}

function writeEntries(workspace: Workspace, script: Script, { grid, entries }: LaidOut): OsdEdit {
  const first = grid && { name: "grid", rest: gridText(grid) };
  const hasOsd = script.tree.sections.some(({ name, title }) => name === "osd" && title === null);
  const edits = first && hasOsd ? [firstEntry(script, "osd", first)] : [];
  // Where the section is new, the grid is the first of its entries.
  const withGrid = first && !hasOsd ? ([["osd", [first, ...(entries.get("osd") ?? [])]]] as const) : [];
  const all = new Map<string, readonly NewEntry[]>([...entries, ...withGrid]);
  const inOrder = new Map(OSD_PAGES.flatMap((page) => (all.has(page) ? [[page, all.get(page)!] as const] : [])));
  const why = [...inOrder.keys(), "osd"]
    .map((section) => whyNotWritable(workspace, script, lineForEntry(script, section)))
    .find((each) => each !== null);
  if (why) return refusal(why);
  return {
    kind: "edits",
    files: [{ file: script.file, edits: joined([...edits, ...appendEntries(script, inOrder)]) }],
  };
}

/** Edits that insert at one place, made one: an editor may take two of them in either order. */
function joined(edits: readonly TextEdit[]): TextEdit[] {
  const byPlace = new Map<string, TextEdit>();
  for (const edit of edits) {
    const place = JSON.stringify(edit.range);
    const before = byPlace.get(place);
    byPlace.set(place, before ? { ...edit, text: before.text + edit.text } : edit);
  }
  return [...byPlace.values()];
}

/** A named grid by its name, as an analogue picture has it. */
export function gridText(grid: Grid): string {
  const named = Object.entries(NAMED_GRIDS).find(([, each]) => sameGrid(each, grid));
  return named ? named[0] : `${grid.columns} x ${grid.rows}`;
}

function isGrid({ columns, rows }: Grid): boolean {
  const isSide = (cells: number, most: number) => Number.isInteger(cells) && cells >= 1 && cells <= most;
  return isSide(columns, LARGEST_GRID.columns) && isSide(rows, LARGEST_GRID.rows);
}

function useLayer({ workspace, craft, page }: BeginScope, file: string): OsdEdit {
  const layer = workspace.script(file);
  if (layer?.kind !== "layer") return refusal("That file is no layer (any more), so the craft cannot use it.");
  if (takesBack(craft.script, page))
    return refusal(
      `${craft.name} drops what its layers say of the OSD: take that “drop” out, then use “${layer.name}”.`,
    );
  if (craft.scripts.some((each) => each.file === file)) return refusal(`${craft.name} uses “${layer.name}” already.`);
  if (leadsBack(workspace, craft.script, layer)) return refusal(`“${layer.name}” uses ${craft.name} itself.`);
  const why = whyNotWritable(workspace, craft.script, Math.max(0, lineForUse(craft.script)));
  if (why !== null) return refusal(why);
  return { kind: "edits", files: [{ file: craft.file, edits: [writeUse(craft.script, file)] }] };
}

/** The layer for which the picture was drawn, if nothing later takes back what it would place. */
function layerOf({ craft, file, page }: BeginScope): Script | null {
  const index = craft.scripts.findIndex((script) => script.file === file && script.kind === "layer");
  const layer = craft.scripts[index];
  return layer && !craft.scripts.slice(index + 1).some((later) => takesBack(later, page)) ? layer : null;
}
