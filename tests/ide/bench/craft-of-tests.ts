/** Every craft that flies in the tests, with its workspace: the demo, the shelf, the sound and the sane ones. */
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { workspaceOf } from "../../rules/check.ts";
import { scriptsIn } from "../../rules/fixtures.ts";

/** Below `tests/fixtures`. */
const FOLDERS = ["../../examples", "shelf", "sound", "sane", "shed", "faulty"];

export interface TriedCraft {
  readonly name: string;
  readonly craft: Craft;
  readonly workspace: Workspace;
}

/** Of the folders with very many craft each third one is taken. */
const MANY = 60;

/** Most of them, by folder and name. */
export function triedCraft(): TriedCraft[] {
  return FOLDERS.flatMap((folder) => {
    const files = scriptsIn(folder);
    const workspace = workspaceOf(files);
    const paths = Object.keys(files).filter((file) => workspace.script(file)?.kind === "craft");
    const taken = paths.length > MANY ? paths.filter((_, i) => i % 3 === 0) : paths;
    return taken.map((file) => ({ name: file, craft: workspace.craft(file)!, workspace }));
  });
}
