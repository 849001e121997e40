/** What can be done with the lines at a selection, known without working it out. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Range } from "../../syntax/span.ts";
import { lineCounts } from "../context/effective-entry.ts";
import { itemsOf, sectionsOf } from "./items.ts";

export interface Offer {
  readonly kind: "override" | "move" | "extract" | "inline";
  readonly title: string;
  /** The craft that is meant. */
  readonly craft: FilePath;
}

/** Craft for which an override of one line is offered: more would be a list to search. */
const MOST_CRAFT = 3;
/** Craft that are put together to find those: a line that counts on none of so many is overridden everywhere. */
const MOST_LOOKED_AT = 50;

/** The offers at a selection: of lines of a craft, of its `use` lines, and of a line of a layer or a handset for the craft on which it counts. */
export function offersAt(workspace: Workspace, file: FilePath, range: Range): Offer[] {
  const script = workspace.script(file);
  if (!script || script.tree.newer) return [];
  const { start, end } = range;
  const isIn = (line: number) => line >= start.line && line <= end.line;
  if (script.kind !== "craft") return overrides(workspace, file, range);
  const use = script.uses.find(({ line }) => line === start.line && start.line === end.line);
  if (use) {
    const target = workspace.target(script, use);
    if (target.kind !== "script" || target.script.kind !== "layer") return [];
    return [{ kind: "inline", title: `Inline the layer “${target.script.name}”`, craft: file }];
  }
  const hasItems = itemsOf(script).some(({ line }) => isIn(line)) || sectionsOf(script).some(({ line }) => isIn(line));
  if (!hasItems) return [];
  const layers = workspace.craft(file)!.scripts.filter(({ kind }) => kind === "layer");
  return [
    { kind: "extract", title: "Extract a new layer…", craft: file },
    ...(layers.length > 0 ? [{ kind: "move", title: "Move to a layer…", craft: file } as const] : []),
  ];
}

function overrides(workspace: Workspace, file: FilePath, { start, end }: Range): Offer[] {
  const entry = workspace.script(file)?.entries.find(({ line }) => line === start.line);
  if (!entry || start.line !== end.line) return [];
  const crafts: Craft[] = [];
  for (const each of workspace.craftFilesWith(file).slice(0, MOST_LOOKED_AT)) {
    const craft = workspace.craft(each);
    if (craft && lineCounts(craft, file, entry)) crafts.push(craft);
    if (crafts.length === MOST_CRAFT) break;
  }
  return crafts.map((craft) => ({
    kind: "override",
    title: `Override ${entry.name} on “${craft.name}”`,
    craft: craft.file,
  }));
}
