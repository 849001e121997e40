/** Edits of the `use` lines of a craft that put another handset in place of its own. */
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { textWith, withFile } from "../context/trial.ts";
import { whyNotWritable } from "./script-edits.ts";

/**
 * The edits after which a craft uses the handset in a file: its own last line for a handset is changed where that is
 * enough, else one is added behind all others, as the last handset that is met counts. A sentence where neither helps;
 * no edit where it is in use already.
 */
export function useEdits(craft: Craft, handset: string, workspace: Workspace): readonly TextEdit[] | string {
  const { script } = craft;
  if (craft.handset?.file === handset) return [];
  const why = whyNotWritable(workspace, script, script.tree.header ?? 0);
  if (why) return why;
  const path = quote(pathBetween(script.file, handset));
  for (const edit of [replacedUse(script, path, workspace), addedUse(script, path)]) {
    if (!edit) continue;
    const tried = withFile(workspace, script.file, textWith(script, [edit]));
    if (tried.craftLike(script.file)?.handset?.file === handset) return [edit];
  }
  return `A “use” of “${craft.name}” could not be written so that its last handset is this one: write it yourself, behind all others.`;
}

/** The craft's own last `use` of a handset, with another path. */
function replacedUse(script: Script, path: string, workspace: Workspace): TextEdit | null {
  const use = script.uses.findLast((each) => {
    const target = workspace.target(script, each);
    return target.kind === "script" && target.script.kind === "handset";
  });
  const node = use && script.tree.lines[use.line]?.node;
  if (!use || node?.kind !== "use" || !node.path) return null;
  const { start, end } = node.path;
  return {
    range: { start: { line: use.line, character: start }, end: { line: use.line, character: end } },
    text: path,
  };
}

/** A new `use` behind the last one, or below the header. */
function addedUse(script: Script, path: string): TextEdit | null {
  const { tree } = script;
  const last = script.uses.at(-1)?.line;
  const line = last ?? tree.header;
  if (line === null || line === undefined) return null;
  const character = tree.lines[line]!.text.length;
  const end = lineEnd(tree, line);
  const at = { line, character };
  return { range: { start: at, end: at }, text: `${last === undefined ? end : ""}${end}use ${path}` };
}
