/** Where a layer that is begun for a craft is put. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";

/** More numbers than anyone gives to layers of one name. */
const MOST_TRIES = 20;

/**
 * `habits.fettle`, or what a layer of another name is called, in the folder in which the craft's layers lie, else most
 * of the workspace's; where there are none in `layers`, beside the craft or beside its folder where that is one of
 * several. A number is added where the name is taken. Null where no name is free.
 */
export function fileForNewLayer(
  workspace: Workspace,
  craft: Script,
  name = "Habits",
): { readonly file: FilePath; readonly name: string } | null {
  const folder = folderOfLayers(workspace, craft);
  if (folder === null) return null;
  const { view } = workspace;
  const taken = new Set(view.list());
  for (let n = 1; n <= MOST_TRIES; n++) {
    const suffix = n === 1 ? "" : `-${n}`;
    const file = `${folder}${fileNameFor(name)}${suffix}.fettle`;
    const answer = view.read(file);
    if (!taken.has(file) && (!answer || answer.kind === "missing"))
      return { file, name: n === 1 ? name : `${name} ${n}` };
  }
  return null;
}

/** The name in letters that every file system takes, words parted by hyphens. */
function fileNameFor(name: string): string {
  const plain = name.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  return plain.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "layer";
}

function folderOfLayers(workspace: Workspace, craft: Script): string | null {
  const own = workspace.craft(craft.file)?.scripts.filter(({ kind }) => kind === "layer") ?? [];
  const scripts = workspace.view.list();
  const found =
    commonest(own.map(({ file }) => folderOf(file))) ??
    commonest(scripts.filter((file) => workspace.script(file)?.kind === "layer").map(folderOf));
  if (found !== null) return found;
  const here = folderOf(craft.file);
  const above = resolvePath(craft.file, "../x");
  // Only where scripts lie there already is it known to be part of the workspace.
  const isSorted = above !== null && scripts.some((file) => file.startsWith(folderOf(above)) && !file.startsWith(here));
  const beside = resolvePath(craft.file, isSorted ? "../layers/x" : "layers/x");
  return beside === null ? null : folderOf(beside);
}

/** With the `/` at its end; empty where there is none. */
function folderOf(file: string): string {
  return file.slice(0, file.lastIndexOf("/") + 1);
}

/** The text that occurs most often; of several the first. */
function commonest(texts: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  let best: string | null = null;
  for (const [text, count] of counts) if (best === null || count > counts.get(best)!) best = text;
  return best;
}
