/** The other side of a drawing: a craft, or a layer laid over the one that is drawn. */
import { type OtherCraft, otherCraftOf } from "../../../shared/ide/panel/other-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import { CannotRun, type Io } from "./io.ts";
import { openScripts } from "./scripts.ts";

/** Opens what an argument names. */
export async function otherCraft(path: string, craft: Craft, io: Io): Promise<OtherCraft> {
  const { opened, refused, nameOf } = await openScripts([path], io);
  if (refused[0] !== undefined) throw new CannotRun(refused[0]);
  const [one, second] = opened;
  if (!one || second) throw new CannotRun(`${path} holds several scripts: name one to compare with`);
  const other = otherCraftOf(one.workspace, one.file, craft);
  if ("message" in other) throw new CannotRun(`${nameOf(one.file)}: ${other.message}`);
  return { ...other, from: nameOf(one.file) };
}
