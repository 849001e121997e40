/** Which craft a file is looked at in, where several use it. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

/** The craft to draw for a file: itself, or of those that use it the wanted one, or the first. */
export function pickedCraft(
  workspace: Workspace,
  file: string,
  crafts: readonly Craft[],
  preferred: string | undefined,
): Craft | null {
  return workspace.craft(file) ?? crafts.find((each) => each.file === preferred) ?? crafts[0] ?? null;
}
