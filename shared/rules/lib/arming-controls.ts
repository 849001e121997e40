/** Controls on which arming depends. */
import { boardOf } from "../../logic/from-craft.ts";
import type { ControlSpec } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { conditionLocation } from "./condition-locations.ts";

/**
 * A report at `arm` for each control of a kind on which it depends. What `arm-permit` depends on does not count:
 * most boards look at it in the moment of arming alone.
 */
export function armingReports(
  craft: Craft,
  workspace: Workspace,
  kind: ControlSpec["kind"],
  word: (control: string) => string,
): Report[] {
  const board = boardOf(craft, workspace);
  const arm = board.selected("arm");
  if (arm === null) return [];
  const names = new Set(board.sets.dependsOn(arm));
  return board.variables
    .filter(({ name, control }) => names.has(name) && control?.kind === kind)
    .map(({ name }) => ({ ...conditionLocation(craft, workspace, "arm"), message: word(name) }));
}
