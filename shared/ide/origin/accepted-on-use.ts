/** What a `use` line accepts of the findings that its layer brings: for the lines of the layer, once there is no `use` any more. */
import type { Craft } from "../../model/craft.ts";
import type { Script, Use } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { craftReports } from "../../rules/engine/idle-allowances.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { idleLinesOfLayers } from "../../rules/lib/needs-in-use.ts";

const IDLE = { code: "setting-needs", comment: "# allow setting-needs: it comes from a layer, and idles here" };

/**
 * By line of the layer the comments that accept a finding of it where it is used: on the `use` line, and for what lies
 * idle on this craft.
 */
export function acceptedOnUse(
  craft: Craft,
  { line: useLine }: Use,
  layer: Script,
  workspace: Workspace,
): ReadonlyMap<number, readonly string[]> {
  const found = new Map<number, readonly string[]>();
  // Of what lies idle a rule is silent in a layer, where it may serve another craft, and not in a craft's own file.
  for (const { file, line } of idleLinesOfLayers(craft, workspace)) {
    const isAccepted = layer.allowances.some((each) => each.code === IDLE.code && each.line === line);
    if (file === layer.file && !isAccepted) found.set(line, [IDLE.comment]);
  }
  for (const { holds, line, code, span } of craft.script.allowances) {
    const rule = holds === "line" && line === useLine && rules.find((each) => each.code === code);
    if (!rule) continue;
    const { text } = craft.script.tree.lines[span.line]!;
    const comment = text.slice(span.start, span.end).trim();
    for (const { at } of craftReports(rule, craft, workspace)) {
      if (at.source.file !== layer.file) continue;
      const before = found.get(at.source.line) ?? [];
      if (!before.includes(comment)) found.set(at.source.line, [...before, comment]);
    }
  }
  return found;
}
