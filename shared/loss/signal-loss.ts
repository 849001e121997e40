/**
 * What happens after the signal is lost in flight, phase by phase and with the lines that it comes from:
 * `signalLossOf`. What no file says is not known, and is told so.
 */
import { boardOf, linkOf } from "../logic/from-craft.ts";
import type { Craft } from "../model/craft.ts";
import { knownPart } from "../model/known-part.ts";
import { oncePer } from "../model/memo.ts";
import type { Workspace } from "../model/workspace.ts";
import type { SignalCourse, SignalLoss } from "../protocol/signal.ts";
import { failsafeBranches } from "./failsafe.ts";
import { isSaid, notesFor } from "./phase-notes.ts";
import { chained, type LoosePhase, notSaid, OPEN, phase, stopped, unnoticedByBoard } from "./phases.ts";
import { presetBranches } from "./presets.ts";
import type { Branch } from "./return-home.ts";

type Catalogued = Pick<Workspace, "catalogue">;

const lossOf = oncePer((craft: Craft, catalogue: Workspace["catalogue"]) => makeLoss(craft, { catalogue }));

/**
 * The courses of a lost signal, for a craft that flies armed: a course for each circumstance that the script
 * cannot know. What a used file that could not be read may have said is not known. Kept for each craft.
 */
export function signalLossOf(craft: Craft, { catalogue }: Catalogued): SignalLoss {
  return lossOf(knownPart(craft, catalogue), catalogue);
}

function makeLoss(craft: Craft, workspace: Catalogued): SignalLoss {
  const receiver = linkOf(craft).loss.onLoss;
  const branches = branchesOf(craft, workspace, receiver);
  const armable = (boardOf(craft, workspace).armed ?? null) !== null && craft.modes.has("arm");
  return {
    receiver,
    courses: branches.map(({ when, phases }): SignalCourse => ({ when, phases: chained(phases.map(armed(armable))) })),
    calls: receiver === "hold" || receiver === "preset" ? null : callsOf(craft),
  };
}

function branchesOf(craft: Craft, workspace: Catalogued, receiver: SignalLoss["receiver"]): Branch[] {
  switch (receiver) {
    case "silent":
      return noticed(craft, "silent");
    case "hold":
      return heldValues(craft);
    case "preset":
      return presetBranches(craft, workspace);
    case null:
      return receiverUnsaid(craft);
  }
}

/** The board learns of it: it waits, and then its failsafe begins. */
function noticed(craft: Craft, receiver: "silent" | "unknown"): Branch[] {
  const waits = unnoticedByBoard(craft, receiver);
  return failsafeBranches(craft, receiver).map(({ when, phases }) => ({ when, phases: [waits, ...phases] }));
}

function heldValues(craft: Craft): Branch[] {
  const flying = (): LoosePhase => {
    const notes = notesFor(craft);
    notes.word("link.on-loss");
    return phase(notes, { kind: "flies-on" }, OPEN, { receiver: "repeats", armed: "yes", back: { kind: "at-once" } });
  };
  const name = "safety.idle-disarm-after";
  const idleMs = isSaid(craft, name) ? notesFor(craft).amount(name, "ms") : null;
  if (!idleMs) return [{ when: [], phases: [flying()] }];
  const idles: LoosePhase = { ...flying(), length: { kind: "known", ms: idleMs.number } };
  return [
    { when: [{ kind: "in-flight" }], phases: [flying()] },
    {
      when: [{ kind: "throttle-closed", since: null }],
      phases: [idles, stopped(craft, "repeats", "idle", [name])],
    },
  ];
}

/** Settings of which any tells something of what follows a lost signal. */
const TELLING = ["link.lost-after", "failsafe.hold-for", "failsafe.hold-with", "failsafe.then"];

function receiverUnsaid(craft: Craft): Branch[] {
  if (!TELLING.some((name) => isSaid(craft, name)))
    return [{ when: [], phases: [notSaid(craft, "unknown", ["link.on-loss", "link.lost-after", "failsafe.then"])] }];
  const silent = noticed(craft, "unknown").map(({ when, phases }): Branch => {
    const circumstances = when.filter(({ kind }) => kind !== "in-flight");
    return { when: [{ kind: "silent" }, ...circumstances], phases };
  });
  const notes = notesFor(craft);
  notes.word("link.on-loss");
  const sending = phase(notes, { kind: "never-noticed" }, OPEN, {
    receiver: "unknown",
    armed: "unknown",
    back: { kind: "unknown" },
  });
  return [...silent, { when: [{ kind: "goes-on-sending" }], phases: [sending] }];
}

/** Where nothing arms the craft, or a line of arm has a fault, it is not known whether it flies armed. */
function armed(armable: boolean): (loose: LoosePhase) => LoosePhase {
  return (loose) => (armable || loose.armed !== "yes" ? loose : { ...loose, armed: "unknown" });
}

function callsOf(craft: Craft): SignalLoss["calls"] {
  const name = "finder.after-lost";
  const notes = notesFor(craft);
  return isSaid(craft, name) && notes.amount(name, "s") ? (notes.lines[0] ?? null) : null;
}
