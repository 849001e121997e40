/** The other side of a comparison as a craft that can be drawn with another. */
import type { Craft } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { comparedCraft, type Side } from "../compare/sides.ts";

/** A craft to draw with another, in a workspace of its own where it is of a revision or of a text that lies nowhere. */
export interface OtherCraft {
  readonly workspace: Workspace;
  readonly craft: Craft;
  /** What it is called, and where it is from; empty where its name says it. */
  readonly name: string;
  readonly from: string;
  /** What is to be known of it, a sentence each: parts that are missing, a handset that stands in. */
  readonly notes: readonly string[];
}

/** The other side, or why there is none, in a sentence. */
export type Other = OtherCraft | { readonly message: string };

/**
 * A side that was read, drawn with a craft: another craft as it is; a layer, or lines without a header, laid over the
 * craft that is drawn; a handset in place of its own. `title` is what it is called without quotes.
 */
export function otherCraftOf(side: Side, title: string, drawn: Craft, workspace: Workspace): Other {
  const script = side.workspace.script(side.file);
  if (!script) return { message: "The file to compare with cannot be read: it may have been moved or deleted." };
  if (script.tree.newer)
    return { message: `${title} is written in a newer edition of the language: update the tool to see it drawn.` };
  if (script.kind === "craft") {
    const compared = comparedCraft({ workspace, file: drawn.file, name: drawn.name }, side);
    if (!compared) return { message: "The craft to compare with cannot be read." };
    const notes = compared.notes.filter((note) => note.startsWith(side.name));
    return { workspace: side.workspace, craft: compared.after, name: title, from: "", notes };
  }
  if (script.kind === "handset") {
    const craft = side.workspace === workspace ? workspace.craft(drawn.file, side.file) : null;
    if (!craft) return { message: `${title} is a handset: one is drawn with a craft of the same workspace only.` };
    return { workspace, craft, name: `${drawn.name} with the handset ${title}`, from: "", notes: [] };
  }
  const what = script.tree.header === null ? title : `the layer ${title}`;
  return {
    workspace,
    craft: laidOver(drawn, { script, workspace }),
    name: `${drawn.name} with ${what} laid over it`,
    from: "",
    notes: [],
  };
}

/** Made once for each script: what is compared is remembered of it. */
function laidOver(
  drawn: Craft,
  { script, workspace }: { readonly script: Script; readonly workspace: Workspace },
): Craft {
  const kept = laidOverOf(drawn, script);
  kept.craft ??= workspace.laidOver(drawn, script);
  return kept.craft;
}

const laidOverOf = oncePer((_drawn: Craft, _script: Script): { craft?: Craft } => ({}));
