/** Which craft is shown for a file that several craft use. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

/** The craft to show for a file: the file itself, else of `crafts` the preferred one, else the first. */
export function pickedCraft(
  workspace: Workspace,
  file: string,
  crafts: readonly Craft[],
  preferred: string | undefined,
): Craft | null {
  return workspace.craft(file) ?? crafts.find((each) => each.file === preferred) ?? crafts[0] ?? null;
}
