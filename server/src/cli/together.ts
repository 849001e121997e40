/** The craft that a command was told are flown at the same time. */
import { resolve } from "node:path";
import type { FilePath } from "../../../shared/model/files.ts";
import type { FlownCraft } from "../../../shared/model/flown.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { flownIn } from "../../../shared/rules/lib/flown.ts";
import { isFolder, realPathOf, toPath } from "../node/disk.ts";
import { CannotRun, type Io } from "./io.ts";
import { inputPath, whyNoCraft, whyNot } from "./scripts.ts";

/** What they send, each read among the files of its own workspace, and once however often it was named. What is no craft is refused in words. */
export async function readTogether(
  paths: readonly string[],
  io: Io,
  workspaceAround: (file: FilePath) => Promise<Workspace>,
): Promise<FlownCraft[]> {
  const flown = new Map<FilePath, FlownCraft>();
  for (const path of paths) {
    const at = path === "-" ? inputPath(realPathOf(io.folder)) : realPathOf(toPath(resolve(io.folder, path)));
    if (path !== "-" && isFolder(at)) throw new CannotRun(`--together: ${path} is a folder: name the craft in it`);
    const workspace = await workspaceAround(at);
    const file = workspace.view.realPath(at);
    const script = workspace.script(file);
    if (!script) throw new CannotRun(`--together: ${path}: ${whyNot(workspace.view.read(file))}`);
    const [craft] = flownIn(workspace, [file]);
    if (!craft) throw new CannotRun(`--together: ${path} ${whyNoCraft(script)}`);
    flown.set(file, craft);
  }
  return [...flown.values()];
}
