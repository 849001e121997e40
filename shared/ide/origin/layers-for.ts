/** The layers into which lines of a craft could go, and which other craft would then change. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Range } from "../../syntax/span.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Steps } from "../../text/steps.ts";
import { differencesOf } from "../compare/compare.ts";
import { formatCount } from "../context/format.ts";
import { withFiles } from "../context/trial.ts";
import { textAfter } from "./draft.ts";
import { type Moved, moveIntoLayer } from "./move.ts";
import { takenIn } from "./selection.ts";

export interface LayerFor {
  readonly file: FilePath;
  readonly name: string;
  /** Its path as the craft would write it. */
  readonly path: string;
  /** Which other craft would change, in a few words. */
  readonly effect: string;
  /** Why the lines cannot go there, in a sentence; null where they can. */
  readonly refused: string | null;
}

export interface LayersFor {
  /** What would go, in a few words. */
  readonly what: string;
  /** Why nothing can go, in a sentence; null where something can. */
  readonly refused: string | null;
  /** The layers of the craft, those that it lays on top first. */
  readonly layers: readonly LayerFor[];
}

/** Other craft that are held against what they would be; the others are counted. */
const MOST_CRAFT = 40;
const MOST_NAMED = 3;

/** Every layer of the craft for the lines of a selection; each is tried out, also on other craft. */
export function* layersFor(workspace: Workspace, file: FilePath, range: Range): Steps<LayersFor> {
  const craft = workspace.craft(file);
  if (!craft)
    return { what: "", refused: "Lines go from a craft into a layer, and this file is no craft.", layers: [] };
  const taken = takenIn(craft.script, range, workspace.catalogue);
  if (typeof taken === "string") return { what: "", refused: taken, layers: [] };
  const names = [...new Set(taken.items.map(({ entry, section }) => entry?.name ?? section))];
  const what = names.length <= MOST_NAMED ? joinWithAnd(names) : formatCount(taken.items.length, "line");
  const layers: LayerFor[] = [];
  for (const layer of craft.scripts.filter(({ kind }) => kind === "layer").toReversed())
    layers.push(yield* layerFor(workspace, craft.script, layer, range));
  return { what, refused: null, layers };
}

function* layerFor(workspace: Workspace, script: Script, layer: Script, range: Range): Steps<LayerFor> {
  yield;
  const moved = moveIntoLayer(workspace, script.file, range, layer.file);
  return {
    file: layer.file,
    name: layer.name,
    path: pathBetween(script.file, layer.file),
    effect: moved.kind === "edits" ? yield* effectOn(workspace, script.file, layer.file, moved) : "",
    refused: moved.kind === "refused" ? moved.message : null,
  };
}

function* effectOn(
  workspace: Workspace,
  file: FilePath,
  layer: FilePath,
  { files }: Extract<Moved, { kind: "edits" }>,
): Steps<string> {
  const others = workspace.craftFilesWith(layer).filter((each) => each !== file);
  if (others.length === 0) return "no other craft here uses it";
  const texts = files.map((each) => [each.file, textAfter(workspace.script(each.file)!, each.edits)] as const);
  const after = withFiles(workspace, new Map(texts));
  const changed: string[] = [];
  for (const each of others.slice(0, MOST_CRAFT)) {
    yield;
    const [before, now] = [workspace.craft(each)!, after.craft(each)];
    if (!now || differencesOf(before, now, workspace.catalogue).length > 0) changed.push(before.name);
  }
  const unseen = others.length - MOST_CRAFT;
  const more = unseen > 0 ? `, and ${formatCount(unseen, "more craft", "more craft")} may change` : "";
  if (changed.length === 0)
    return `${formatCount(others.length, "other craft", "other craft")} ${others.length === 1 ? "uses" : "use"} it, and none of them changes${more}`;
  const named = changed.slice(0, MOST_NAMED);
  const rest = changed.length - named.length;
  return `also changes ${joinWithAnd([...named, ...(rest > 0 ? [`${rest} more`] : [])])}${more}`;
}
