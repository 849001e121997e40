/** Which craft is shown for a file that several craft use. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";

/** The craft to show for a file: the file itself, else of those that use it the preferred one, else the first. No other is put together. */
export function pickedCraft(workspace: Workspace, file: string, preferred: string | undefined): Craft | null {
  const own = workspace.craft(file);
  if (own) return own;
  const users = workspace.craftFilesWith(file);
  const picked = preferred !== undefined && users.includes(preferred) ? preferred : users[0];
  return picked === undefined ? null : workspace.craft(picked);
}
