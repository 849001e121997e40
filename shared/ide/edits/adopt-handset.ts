/** The handset of another craft, put to use on this one: what a handset says cannot stand in a craft. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { print } from "../../syntax/parse.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { useEdits } from "./handset-use.ts";

/** The edits of the craft's `use` lines after which it uses the other's handset; a sentence where it cannot. */
export function otherHandsetEdits(
  workspace: Workspace,
  mine: Craft,
  theirs: Craft,
  into: FilePath,
): readonly TextEdit[] | string {
  const { handset } = theirs;
  if (!handset) return "The other side uses no handset, so there is none to take.";
  if (mine.script.kind === "handset")
    return `“${mine.name}” is a handset itself, so no other one is used in its place: take what that one says.`;
  const here = workspace.script(handset.file);
  if (here?.kind === "handset" && print(here.tree) !== print(handset.tree))
    return `The file of the handset “${handset.name}” says something else here than on the other side: change it there.`;
  if (here?.kind !== "handset")
    return `The handset “${handset.name}” of the other side is no file of this workspace: save it as one, then use it.`;
  if (into !== mine.file) return `Which handset is used is said by “${mine.name}” itself: take it there.`;
  return useEdits(mine, handset.file, workspace);
}

/** Whether the other's handset is wanted: it was asked for, or something that it says and only its file can hold. */
export function isHandsetWanted(
  mine: Craft,
  theirs: Craft,
  into: FilePath,
  asked: ReadonlySet<string>,
  differing: ReadonlySet<string>,
): boolean {
  if (asked.has("handset.name")) return true;
  // Two files of one name: the name is no difference that could be asked for.
  if (differing.has("handset.name") || mine.handset?.file === theirs.handset?.file) return false;
  return into === mine.file && [...asked].some((what) => what.startsWith("transmitter."));
}

/** Why a setting of the handset is not taken into a file of another kind, in a sentence. */
export function notInThisFile(mine: Craft, name: string, differing: ReadonlySet<string>): string {
  if (differing.has("handset.name"))
    return `“${name}” is said by the handset, in a file of its own: take the handset, and it comes along.`;
  return mine.handset
    ? `“${name}” is said by the handset “${mine.handset.name}”: take it into that file.`
    : `“${name}” is said by a handset, and “${mine.name}” uses none.`;
}
