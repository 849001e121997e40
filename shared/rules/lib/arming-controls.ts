/** Controls on which arming depends. */
import { boardOf } from "../../logic/from-craft.ts";
import type { ControlSpec, Switchboard } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Report } from "../engine/rule.ts";
import { conditionLocation } from "./condition-locations.ts";

/** A report for each control of a kind on which arming depends; `word` gets whether `arm` depends on it, or only `arm-permit`. */
export function armingReports(
  craft: Craft,
  workspace: Workspace,
  kind: ControlSpec["kind"],
  word: (control: string, by: "arm" | "permit") => string,
): Report[] {
  const board = boardOf(craft, workspace);
  if (board.armed === null) return [];
  const names = new Set(board.sets.dependsOn(board.armed));
  return board.variables
    .filter(({ name, control }) => names.has(name) && control?.kind === kind)
    .map(({ name }) => {
      const { by, where } = armingOn(craft, workspace, board, name);
      return { ...where, message: word(name, by) };
    });
}

/** The location at `arm`, or at `arm-permit` if only that depends on the control. */
function armingOn(craft: Craft, workspace: Workspace, board: Switchboard, control: string) {
  const arm = board.selected("arm");
  const permits = arm !== null && !board.sets.dependsOn(arm).includes(control);
  const [one, other] = permits ? ["arm-permit", "arm"] : ["arm", "arm-permit"];
  const { at, alsoOf = [] } = conditionLocation(craft, workspace, one!);
  const others = conditionLocation(craft, workspace, other!).alsoOf ?? [];
  return { by: permits ? ("permit" as const) : ("arm" as const), where: { at, alsoOf: [...alsoOf, ...others] } };
}
