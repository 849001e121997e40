/** The other side of a drawing: a craft of a file or a revision, or a layer laid over the one that is drawn. */
import { type OtherCraft, otherCraftOf } from "../../../shared/ide/panel/other-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { openOther } from "./compare-sides.ts";
import { CannotRun, type Io } from "./io.ts";

/** Opens what an argument names: a file if that path exists, else `REV:PATH` of git. */
export async function otherCraft(argument: string, craft: Craft, workspace: Workspace, io: Io): Promise<OtherCraft> {
  const side = await openOther(argument, io);
  const title = side.workspace.script(side.file)?.name || argument;
  const other = otherCraftOf(side, title, craft, workspace);
  if ("message" in other) throw new CannotRun(other.message);
  return { ...other, from: argument };
}
