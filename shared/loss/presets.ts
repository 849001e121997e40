/** What a craft does while its receiver sends presets: to the board that is a live link. */
import { boardOf } from "../logic/from-craft.ts";
import type { LossOutcome, LossState } from "../logic/switchboard-types.ts";
import type { Craft } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import type { SignalPhase } from "../protocol/signal.ts";
import { failsafeBranches } from "./failsafe.ts";
import { isSaid, notesFor } from "./phase-notes.ts";
import { type LoosePhase, OPEN, phase, stopped } from "./phases.ts";
import { type Branch, returnBranches } from "./return-home.ts";
import { presetSticks, presetThrottle } from "./throttle.ts";

const PRESETS = "link.preset-channels";

/** Every way that it may go: whether the presets leave arm on decides first. */
export function presetBranches(craft: Craft, workspace: Pick<Workspace, "catalogue">): Branch[] {
  const loss = boardOf(craft, workspace).loss();
  const before = unnoticedByReceiver(craft);
  const arm = armAfter(loss);
  // Where arm itself stays on, it is the permission that may end it.
  const by = loss.outcomes.get("arm") === "on" ? "arm-permit" : "arm";
  const stops = stopped(craft, "presets", by === "arm" ? "presets" : "permit", [PRESETS]);
  const off: LoosePhase[] = [before, ...disarming(craft), stops];
  if (arm === "off") return [{ when: [], phases: off }];
  const on = stillArmed(craft, loss, arm).map(({ when, phases }) => ({ when, phases: [before, ...phases] }));
  if (arm === "on") return on;
  return [
    ...on.map(({ when, phases }): Branch => ({ when: [{ kind: "arm-on", by }, ...when], phases })),
    { when: [{ kind: "arm-off", by }], phases: off },
  ];
}

/** How long the receiver itself waits before it sends presets is said by no setting. */
function unnoticedByReceiver(craft: Craft): LoosePhase {
  const notes = notesFor(craft);
  notes.word("link.on-loss");
  return phase(
    notes,
    { kind: "unnoticed", by: "receiver" },
    { kind: "depends", on: "receiver" },
    { receiver: "unnoticed", armed: "yes", back: { kind: "at-once" } },
  );
}

/**
 * A craft in flight: most boards look at the permission to arm only in the moment of arming, so its loss alone
 * settles nothing.
 */
function armAfter({ outcomes }: LossState): "on" | "off" | "open" {
  const arm = outcomes.get("arm");
  const permit: LossOutcome | null = outcomes.get("arm-permit") ?? null;
  if (arm === "off") return "off";
  return arm === "on" && permit !== "off" ? "on" : "open";
}

/** `safety.disarm-hold`: how long arm must be gone before the motors stop. */
function disarming(craft: Craft): LoosePhase[] {
  const name = "safety.disarm-hold";
  if (!isSaid(craft, name)) return [];
  const notes = notesFor(craft);
  const ms = notes.amount(name, "ms")?.number ?? null;
  const length = ms === null ? ({ kind: "unknown" } as const) : ({ kind: "known", ms } as const);
  return [obeying(craft, notes, [], length, "no")];
}

function stillArmed(craft: Craft, loss: LossState, arm: "on" | "open"): Branch[] {
  const isOn = (mode: string) => craft.modes.has(mode) && loss.outcomes.get(mode) === "on";
  if (isOn("loss-trial")) return failsafeBranches(craft, "presets", "loss-trial");
  if (isOn("return-home")) return returnBranches(craft, "presets", "return-home", { kind: "at-once" });
  const notes = notesFor(craft);
  const on = loss.on.filter((name) => name !== "arm" && name !== "arm-permit");
  for (const name of ["arm", ...on]) notes.mode(name);
  const idle = notesFor(craft);
  const disarmMs = isSaid(craft, "safety.idle-disarm-after") ? idle.amount("safety.idle-disarm-after", "ms") : null;
  const armsItself = arm === "on" ? "yes" : "no";
  if (!disarmMs || presetThrottle(craft)?.is !== "closed")
    return [{ when: [], phases: [obeying(craft, notes, on, OPEN, armsItself)] }];
  const waits = obeying(craft, notes, on, { kind: "known", ms: disarmMs.number }, armsItself);
  return [{ when: [], phases: [waits, stopped(craft, "presets", "idle", ["safety.idle-disarm-after"])] }];
}

function obeying(
  craft: Craft,
  notes: ReturnType<typeof notesFor>,
  on: readonly string[],
  length: SignalPhase["length"],
  armsItself: "yes" | "no",
): LoosePhase {
  notes.amount(PRESETS, "us");
  const throttle = presetThrottle(craft);
  if (throttle) notes.usual("link.order");
  const sticks = presetSticks(craft);
  return phase(
    notes,
    { kind: "obeys-presets", throttle, sticks, on, armsItself: armsItself === "yes" && throttle?.is !== "open" },
    length,
    {
      receiver: "presets",
      armed: "yes",
      back: { kind: "at-once" },
    },
  );
}
