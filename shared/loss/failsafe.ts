/** What the board does by its failsafe once it calls the signal lost. */
import type { Craft } from "../model/craft.ts";
import { settingOf } from "../model/setting-lookup.ts";
import type { SignalPhase } from "../protocol/signal.ts";
import { isSaid, saidWord } from "./phase-notes.ts";
import { descent, held, type LoosePhase, notSaid, stopped } from "./phases.ts";
import { type Branch, returnBranches } from "./return-home.ts";

type Receiver = SignalPhase["receiver"];

/** Every way that it may go, from the hold on. `by` is the mode that plays the loss, where one does. */
export function failsafeBranches(craft: Craft, receiver: Receiver, by?: string): Branch[] {
  const hold = saysAnything(craft) ? [held(craft, receiver)] : [];
  const ends = endings(craft, receiver).map(({ when, phases }): Branch => ({ when, phases: [...hold, ...phases] }));
  const idle = by === undefined ? idleBranch(craft, receiver, hold) : null;
  if (!idle) return ends;
  const flying = ends.length > 1 ? ends : ends.map((each): Branch => ({ ...each, when: [{ kind: "in-flight" }] }));
  return [...flying, idle];
}

/** Whether any line says what the failsafe does; of a script that is silent no hold is told either. */
function saysAnything(craft: Craft): boolean {
  return ["hold-for", "hold-with", "then"].some((name) => isSaid(craft, `failsafe.${name}`));
}

function endings(craft: Craft, receiver: Receiver): Branch[] {
  const then = "failsafe.then";
  switch (saidWord(craft, then)) {
    case "stop":
      return [{ when: [], phases: [stopped(craft, receiver, "flight", [then])] }];
    case "descend":
      return [{ when: [], phases: descent(craft, receiver, then) }];
    case "return":
      return returnBranches(craft, receiver, then);
    default:
      return [{ when: [], phases: [notSaid(craft, receiver, [then])] }];
  }
}

/** A craft that stood at idle before the loss simply stops: whether before its hold or after it is not said. */
function idleBranch(craft: Craft, receiver: Receiver, hold: readonly LoosePhase[]): Branch | null {
  const name = "failsafe.stop-if-idle-for";
  const setting = settingOf(craft, name);
  if (setting?.value?.kind !== "quantity") return null;
  const waits = hold.some(({ length }) => length.kind !== "known" || length.ms > 0);
  const stops = stopped(craft, receiver, waits ? "hold unclear" : "idle", [name]);
  return { when: [{ kind: "throttle-closed", since: setting.text }], phases: [stops] };
}
