/** What a page of the OSD that shows nothing yet could be begun from. */
import type { Craft } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import { choiceOf } from "../../model/setting-lookup.ts";
import { planOf } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { gridOf, layoutOn, onGrid, placedOn, viewerGridOf } from "../../osd/layout.ts";
import {
  type Grid,
  LARGEST_GRID,
  NAMED_GRIDS,
  OSD_PAGES,
  type OsdPage,
  sameGrid,
  USUAL_GRIDS,
} from "../../protocol/osd.ts";
import type { OsdBeginnings, OsdModel } from "../../protocol/osd-edit.ts";

/** More are not looked through in a list. */
const MOST_MODELS = 40;

/** Null where the page shows something, or cannot be begun, as its grid has a fault. */
export function beginningsOf(craft: Craft, workspace: Workspace, page: OsdPage): OsdBeginnings | null {
  const said = craft.settings.get("osd")?.get("grid");
  const saidGrid = gridOf(craft);
  if (said && (!saidGrid || !isPossible(saidGrid))) return null;
  const isPlaced = OSD_PAGES.some((each) => placedOn(craft, each).size > 0);
  if (said && placedOn(craft, page).size > 0) return null;
  const grids = gridsFor(craft, workspace);
  if (!said && isPlaced) return { page, lacks: "grid", grids, layers: [], crafts: [] };
  const best = grids.length === 1 ? grids[0]! : null;
  return {
    page,
    lacks: "page",
    grids,
    layers: takesBack(craft.script, page) ? [] : modelsIn(workspace, craft, page, "layer", best),
    crafts: modelsIn(workspace, craft, page, "craft", best),
  };
}

/** The grid that is said, else the viewer's own, else those that the picture can have and on which all that is placed has room. */
function gridsFor(craft: Craft, workspace: Workspace): readonly Grid[] {
  const standard = NAMED_GRIDS[choiceOf(craft, "video.standard") ?? ""];
  // A viewer that draws “same” says nothing before there is a grid.
  const known = gridOf(craft) ?? viewerGridOf(craft) ?? standard;
  if (known && isPossible(known)) return [known];
  const signal = choiceOf(craft, "video.signal");
  const named = Object.values(NAMED_GRIDS);
  const suiting = USUAL_GRIDS.filter((grid) => {
    const isNamed = named.some((each) => sameGrid(each, grid));
    return signal === "analogue" ? isNamed : signal === "digital" ? !isNamed : true;
  });
  const roomy = suiting.filter((grid) => hasRoom(craft, workspace, grid));
  return roomy.length > 0 ? roomy : suiting;
}

function isPossible({ columns, rows }: Grid): boolean {
  return columns <= LARGEST_GRID.columns && rows <= LARGEST_GRID.rows;
}

/** Whether all that the craft places would be on a grid. */
function hasRoom(craft: Craft, { catalogue }: Workspace, grid: Grid): boolean {
  return OSD_PAGES.every((page) =>
    layoutOn(grid, craft, catalogue, page).elements.every((placed) => onGrid(placed, grid)),
  );
}

/** Whether a script drops all that earlier files place on a page, so that no layer of it can place anything. */
export function takesBack({ drops }: Script, page: OsdPage): boolean {
  return drops.some(({ section, all }) => all && (section === page || section === "osd"));
}

function modelsIn(
  workspace: Workspace,
  craft: Craft,
  page: OsdPage,
  kind: "layer" | "craft",
  best: Grid | null,
): OsdModel[] {
  const models: OsdModel[] = [];
  for (const file of workspace.view.list()) {
    if (models.length >= MOST_MODELS) break;
    const script = workspace.script(file);
    if (script?.kind !== kind || script.tree.newer || craft.scripts.some((each) => each.file === file)) continue;
    const grid = laidOutBy(workspace, script, page);
    if (grid) models.push({ file, name: script.name, ...grid });
  }
  const rank = (model: OsdModel) => (best && sameGrid(best, model) ? 0 : 1);
  return models.sort((a, b) => rank(a) - rank(b) || (a.name < b.name ? -1 : 1));
}

/** The grid of a script that lays out a page: a layer by its own lines, a craft by all that it uses. Null where it does not. */
function laidOutBy(workspace: Workspace, script: Script, page: OsdPage): Grid | null {
  const places = (each: Script) => each.entries.some(({ kind, section }) => kind === "element" && section === page);
  if (script.kind === "layer" && !places(script)) return null;
  const parts = planOf(workspace, script, null).parts.map((part) => part.script);
  if (!parts.some(places)) return null;
  const isGrid = ({ section, name }: Entry) => section === "osd" && name === "grid";
  const value = parts.flatMap(({ entries }) => entries.filter(isGrid)).at(-1)?.value;
  if (value?.kind === "choice") return NAMED_GRIDS[value.word] ?? null;
  if (value?.kind !== "size" || !isPossible(value) || value.columns < 1 || value.rows < 1) return null;
  return { columns: value.columns, rows: value.rows };
}
