/** The craft that the panel shows with the one that it draws. */
import { type Other, otherCraftOf } from "../../../shared/ide/panel/other-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { OtherSide } from "../../../shared/protocol/compare.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import type { Documents } from "./documents.ts";
import { fileSide, type ReadSide } from "./other-side.ts";

/** A side that was read, as what is drawn with a craft of the present moment. */
export function drawnWith(
  against: OtherSide,
  read: ReadSide | Refused,
  documents: Documents,
  workspace: Workspace,
): (drawn: Craft) => Other {
  // A document may have changed since it was read.
  const side = against.kind === "file" && read.kind === "read" ? fileSide(documents, read.file) : read;
  return (drawn) => (side.kind === "read" ? otherCraftOf(side, side.title, drawn, workspace) : side);
}
