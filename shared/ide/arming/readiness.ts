/** What prevents a craft from arming in one state of its controls, and all ways to arm it. */
import { unknownInWords } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Move, Positions, StateSet, Switchboard, Way } from "../../logic/switchboard-types.ts";
import type { Craft, Source } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type ArmingMoment, limitObstacles, type Obstacle, startDelays } from "./arming-limits.ts";

export type { ArmingMoment, Obstacle } from "./arming-limits.ts";

export interface ArmingWay {
  /** In words, as in “TL down, KN from 1500 us to 1700 us”. */
  readonly words: string;
  readonly demands: readonly {
    readonly name: string;
    readonly positions: readonly string[];
    /** Pulses in us, both ends included. */
    readonly pulses: readonly { readonly from: number; readonly to: number }[];
  }[];
}

export interface Readiness {
  /** The assumed positions of the controls; a control that is not named may be anywhere. */
  readonly positions: Positions;
  /** `no` where an obstacle certainly prevents arming, `depends` where something that is not known may prevent it. */
  readonly armed: "yes" | "no" | "depends";
  readonly obstacles: readonly Obstacle[];
  /** The fewest moves of controls that arm; empty where none is needed, null where no move arms or it is not known. */
  readonly moves: readonly Move[] | null;
  /** Every combination of controls that arms the craft. */
  readonly ways: readonly ArmingWay[];
  /** False where there are more ways than are listed, or where they are not known. */
  readonly complete: boolean;
}

/** The most ways that are listed; more would not be read. */
const MOST_WAYS = 60;

/**
 * What prevents the craft from arming at a moment, by what is certain of it where a part is missing: controls that are not named are at rest, dials
 * anywhere. Only the script's own lines count, never a default.
 */
export function readinessOf(craft: Craft, workspace: Workspace, moment: ArmingMoment = {}): Readiness {
  const known = knownPart(craft, workspace.catalogue);
  const board = boardOf(known, workspace);
  const positions = positionsAt(craft, board, moment);
  const obstacles = [
    ...modeObstacles(known, board, positions),
    ...limitObstacles(craft, moment),
    ...startDelays(craft),
  ];
  const has = (state: Obstacle["state"]) => obstacles.some((each) => each.state === state);
  const found = board.armed === null ? null : board.waysTo(board.armed, MOST_WAYS);
  return {
    positions,
    armed: has("stands") ? "no" : has("open") ? "depends" : "yes",
    obstacles,
    moves: board.armed === null ? null : board.movesTo(board.armed, positions),
    ways: [...(found?.ways ?? []).map(describeWay), ...stickArmingWays(craft)],
    complete: found?.complete ?? false,
  };
}

/**
 * Rest positions, overridden by those given. Where the script names the throttle's channel, that channel gets the
 * throttle's pulse.
 */
function positionsAt(craft: Craft, board: Switchboard, { positions = {}, throttleUs }: ArmingMoment): Positions {
  const order = settingOf(craft, "link.order")?.value;
  const reversed = settingOf(craft, "link.reversed");
  const channel = order?.kind === "order" ? order.words.indexOf("throttle") + 1 : 0;
  const name = `ch${channel}`;
  const names = board.variables.some((each) => each.name === name);
  // A stick that the board reverses has another pulse on its channel than the one that acts as throttle.
  if (!names || throttleUs === undefined || reversed?.text.includes("throttle")) return { ...board.rest, ...positions };
  const at = { [name]: throttleUs };
  const possible = board.sets.where(at) !== board.sets.none;
  return { ...board.rest, ...(possible ? at : {}), ...positions };
}

/** Obstacles from the modes `arm` and, where it is set up, `arm-permit`. */
function modeObstacles(craft: Craft, board: Switchboard, positions: Positions): Obstacle[] {
  const current = board.sets.where(positions);
  const stickSource = stickArmingSource(craft);
  const armModes = craft.modes.has("arm-permit") ? ["arm", "arm-permit"] : ["arm"];
  const missing = craft.gaps.length > 0;
  return armModes.flatMap((name): Obstacle[] => {
    const what = `modes.${name}`;
    const mode = craft.modes.get(name);
    const source = mode?.lines.at(-1)?.source ?? null;
    if (!mode) {
      if (stickSource)
        return [{ what, state: "open", message: "No mode arms this craft: only the sticks do.", source: stickSource }];
      return [{ what, state: "stands", message: "No mode “arm” is set up, so nothing arms this craft.", source }];
    }
    const set = board.selected(name);
    if (set === null)
      return [
        {
          what,
          state: "open",
          message: `When ${name} is on is not known: ${unknownInWords(name, board.tangles.get(name), missing)}.`,
          source,
        },
      ];
    if (board.sets.within(current, set)) return [];
    const condition = `${name} is on when ${mode.text}`;
    if (board.sets.meet(current, set) === false) {
      const message = `${name} is off here: ${condition}${neverText(set, board)}.`;
      if (name === "arm" && stickSource)
        return [{ what, state: "open", message: `${message} The sticks may still arm the craft.`, source }];
      return [{ what, state: "stands", message, source }];
    }
    const open = board.sets.dependsOn(board.sets.given(set, positions));
    // On a two-level channel a position between the levels may arrive as either of them.
    const arrives = open.every((each) => each in positions)
      ? "which may arrive as either end"
      : "which may stand anywhere";
    return [
      { what, state: "open", message: `${name} depends on ${open.join(", ")}, ${arrives}: ${condition}.`, source },
    ];
  });
}

function neverText(set: StateSet, board: Switchboard): string {
  return set === board.sets.none ? ", and no position of the controls makes that so" : "";
}

/** The line that allows arming by sticks; null where there is none. */
function stickArmingSource(craft: Craft): Source | null {
  const setting = settingOf(craft, "safety.stick-arming");
  return setting?.value?.kind === "yes-no" && setting.value.yes ? setting.source : null;
}

function stickArmingWays(craft: Craft): ArmingWay[] {
  return stickArmingSource(craft) ? [{ words: "the sticks held in a corner (stick-arming)", demands: [] }] : [];
}

/** A way in words, with its demands as data. */
export function describeWay({ demands }: Way): ArmingWay {
  const parts = demands.map(({ variable, positions, pulses }) => ({
    name: variable.name,
    positions,
    pulses: pulses.map(({ fromUs, toUs }) => ({ from: fromUs, to: toUs })),
  }));
  const words = parts.map(
    ({ name, positions, pulses }) => `${name} ${[...positions, ...pulses.map(spanText)].join(" or ")}`,
  );
  return { words: words.length > 0 ? words.join(", ") : "whatever the controls do", demands: parts };
}

function spanText({ from, to }: { readonly from: number; readonly to: number }): string {
  return from === to ? `at ${from} us` : `from ${from} us to ${to} us`;
}
