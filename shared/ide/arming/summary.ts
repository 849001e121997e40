/** Whether a craft can be armed, in a few words: what a status bar has room for. */
import { boardOf } from "../../logic/from-craft.ts";
import type { Move } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { ArmingSummary } from "../../protocol/status.ts";
import { joinWithAnd } from "../../text/list.ts";
import { missingParts } from "../context/missing-parts.ts";
import { type Obstacle, readinessOf } from "./readiness.ts";

/**
 * From every control at rest: whether the craft is armed already, whether moves of controls arm it, or what
 * in the script prevents that. What only the field can tell, such as where the throttle stands, does not
 * make a craft less ready: it is named among what is still to be met.
 */
export function armingSummaryOf(craft: Craft, workspace: Workspace): ArmingSummary {
  const rest = readinessOf(craft, workspace);
  const atRest = rest.obstacles[0] ?? null;
  const summary = (state: ArmingSummary["state"], words: string, obstacles: readonly Obstacle[]): ArmingSummary => ({
    state,
    words,
    obstacle: atRest?.message ?? null,
    besides: obstacles.map(({ message }) => message),
  });
  const board = boardOf(knownPart(craft, workspace.catalogue), workspace);
  const [missing] = missingParts(craft);
  if (missing && board.armed === null)
    return summary("unknown", `${missing.message} It may say something of arming.`, []);
  const ofModes = (obstacles: readonly Obstacle[]) => obstacles.filter(({ what }) => what.startsWith("modes."));
  const standing = rest.obstacles.find(({ state }) => state === "stands");
  if (ofModes(rest.obstacles).length === 0) {
    return standing
      ? summary("not-ready", standing.message, [])
      : summary("armed", "What arms it is on with every control at rest.", rest.obstacles);
  }
  if (board.armed === null) {
    const open = ofModes(rest.obstacles).find(({ state }) => state === "open");
    return summary("unknown", open?.message ?? "What arms it is not known.", []);
  }
  if (rest.moves === null) {
    const byStick = ofModes(rest.obstacles).find(({ state }) => state === "open");
    if (byStick && standing === undefined) return summary("depends", byStick.message, []);
    return summary("not-ready", (standing ?? byStick)?.message ?? "Nothing arms it.", []);
  }
  const moved = Object.fromEntries(rest.moves.map(({ name, to }) => [name, to]));
  const after = readinessOf(craft, workspace, { positions: moved }).obstacles;
  const stands = after.find(({ state }) => state === "stands");
  if (stands) return summary("not-ready", stands.message, []);
  const open = ofModes(after)[0];
  if (open) return summary("depends", open.message, []);
  const way = `${joinWithAnd(rest.moves.map(moveText))} ${rest.moves.length === 1 ? "arms" : "arm"} it.`;
  return summary("ready", way, after);
}

function moveText({ name, to }: Move): string {
  return typeof to === "number" ? `${name} at ${to} us` : `${name} ${to}`;
}
