/** The craft that the panel shows with the one that it draws. */
import { type Other, otherCraftOf } from "../../../shared/ide/panel/other-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { OtherSide } from "../../../shared/protocol/compare.ts";
import { pathOf } from "./paths.ts";

/** What a client names as the other side of a craft. */
export function otherOf(side: OtherSide, craft: Craft, workspace: Workspace): Other {
  if (side.kind !== "file") return { message: "There is nothing to compare with." };
  return otherCraftOf(workspace, pathOf(side.uri), craft);
}
