/** The craft behind a script, in the few words that a status bar has room for. */
import type { Workspace } from "../../model/workspace.ts";
import type { CraftStatus } from "../../protocol/status.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { armingSummaryOf } from "../arming/summary.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { countsOf } from "./counted-findings.ts";
import { faultOf } from "./fault.ts";

/** The status of a file; null where it is no script. `preferred` is the craft to name where several use the file. */
export function craftStatusOf(workspace: Workspace, file: string, preferred?: string): CraftStatus | null {
  const script = workspace.script(file);
  if (!script) return null;
  const craft = pickedCraft(workspace, file, preferred);
  const isRead = craft !== null && !craft.script.tree.newer;
  return {
    kind: script.kind,
    name: script.name,
    fault: faultOf(script),
    craft: isRead ? { file: craft.file, name: craft.name } : null,
    arming: isRead ? armingSummaryOf(craft, workspace) : null,
    findings: countsOf(findingsOf(workspace, isRead ? craft.file : file)),
  };
}
