/** The edits of one craft after which it is like another one in some names: by a `use` of the layer that says them, where that says nothing else. */
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { differencesOf } from "../compare/compare.ts";
import { adoptEdits } from "../edits/adopt.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { lineForUse, writeUse } from "../edits/use-line.ts";
import { withEdits } from "./change-core.ts";

export interface AlikeLines {
  readonly edits: readonly TextEdit[];
  /** By name the layer that says it from now on. */
  readonly layers: ReadonlyMap<string, string>;
  /** By name why it is not the same then. */
  readonly left: ReadonlyMap<string, string>;
}

/** The edits of the craft's own file. What a layer says besides may come along where it `mayCome` and nothing is there yet. */
export function alikeLines(
  workspace: Workspace,
  mine: Craft,
  example: Craft,
  whats: readonly string[],
  mayCome: (what: string) => boolean,
): AlikeLines {
  if (whats.length === 0) return { edits: [], layers: new Map(), left: new Map() };
  for (const layer of unsharedLayers(workspace, mine, example)) {
    const byLayer = withLayer(workspace, mine, example, { whats, mayCome, layer });
    if (byLayer) return byLayer;
  }
  return written(workspace, mine, example, whats);
}

function written(workspace: Workspace, mine: Craft, example: Craft, whats: readonly string[]): AlikeLines {
  const made = adoptEdits(workspace, mine, example, whats, mine.file);
  if (made.kind === "refused")
    return { edits: [], layers: new Map(), left: new Map(whats.map((what) => [what, made.message])) };
  return {
    edits: made.files.flatMap(({ edits }) => edits),
    layers: new Map(),
    left: new Map(made.left.map(({ what, message }) => [what, message])),
  };
}

/** Layers that the example names itself and the other craft does not have. */
function unsharedLayers(workspace: Workspace, mine: Craft, example: Craft): Script[] {
  return example.script.uses.flatMap((use) => {
    const target = workspace.target(example.script, use);
    if (target.kind !== "script" || target.script.kind !== "layer") return [];
    return mine.scripts.some(({ file }) => file === target.script.file) ? [] : [target.script];
  });
}

interface LayerTask {
  readonly whats: readonly string[];
  readonly mayCome: (what: string) => boolean;
  readonly layer: Script;
}

/** The same by a `use` of a layer; null where that would say more than is wanted, or not what is wanted. */
function withLayer(
  workspace: Workspace,
  mine: Craft,
  example: Craft,
  { whats, mayCome, layer }: LayerTask,
): AlikeLines | null {
  if (whyNotWritable(workspace, mine.script, lineForUse(mine.script)) !== null) return null;
  const use = writeUse(mine.script, layer.file);
  const then = withEdits(workspace, [{ file: mine.file, edits: [use] }]).craft(mine.file);
  if (!then) return null;
  const all = differencesOf(mine, then, workspace.catalogue);
  const said = all.flatMap(({ what }) => (whats.includes(what) ? [what] : []));
  const besides = all.filter(({ what }) => !whats.includes(what));
  const open = new Set(differencesOf(then, example, workspace.catalogue).map(({ what }) => what));
  // For one or two names a layer is more than was asked for.
  if (said.length < LEAST_SAID || said.some((what) => open.has(what))) return null;
  if (besides.some(({ what, before }) => before !== null || !mayCome(what))) return null;
  const rest = whats.filter((what) => !said.includes(what));
  const others = written(workspace, mine, example, rest);
  const edits = [use, ...others.edits];
  const last = withEdits(workspace, [{ file: mine.file, edits }]).craft(mine.file);
  const left = last && new Set(differencesOf(last, example, workspace.catalogue).map(({ what }) => what));
  if (!left || said.some((what) => left.has(what)) || rest.some((what) => left.has(what) && !others.left.has(what)))
    return null;
  return { edits, layers: new Map(said.map((what) => [what, layer.name])), left: others.left };
}

const LEAST_SAID = 3;
