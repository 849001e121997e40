/** The other side of a comparison, understood. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";

/** A craft to compare with, in a workspace of its own where it is of a revision or of a text that lies nowhere. */
export interface OtherCraft {
  readonly workspace: Workspace;
  readonly craft: Craft;
  /** What it is called, and where it is from; empty where its name says it. */
  readonly name: string;
  readonly from: string;
}

/** The other side, or why there is none, in a sentence. */
export type Other = OtherCraft | { readonly message: string };

/**
 * A file of a workspace as the other side of a craft: a craft as it is, a layer laid over the craft that is drawn, a
 * handset in place of its own.
 */
export function otherCraftOf(workspace: Workspace, file: FilePath, drawn: Craft): Other {
  const script = workspace.script(file);
  if (!script) return { message: "The file to compare with cannot be read: it may have been moved or deleted." };
  if (script.tree.newer)
    return {
      message: "What is compared with is written in a newer edition of the language: update the tool to see it.",
    };
  const named = (craft: Craft, name: string): OtherCraft => ({ workspace, craft, name, from: "" });
  const ownName = script.name === "" ? "" : ` “${script.name}”`;
  switch (script.kind) {
    case "craft": {
      const craft = workspace.craft(file)!;
      return named(craft, craft.name);
    }
    case "handset": {
      const craft = workspace.craft(drawn.file, file);
      return craft
        ? named(craft, `${drawn.name} with the handset${ownName}`)
        : { message: "A handset can be compared with only where the craft lies in the same workspace." };
    }
    default:
      return named(
        workspace.laidOver(drawn, script),
        `${drawn.name} with the ${script.kind === "layer" ? "layer" : "text"}${ownName} laid over it`,
      );
  }
}
