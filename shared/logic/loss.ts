/** What becomes of the modes when the link is lost. */
import type { LossOutcome, LossState, StateSet, Switchboard } from "./switchboard-types.ts";

/**
 * One more state of the craft: the link is lost. A receiver that falls silent or holds leaves
 * every mode as it was; what the board itself then does is its failsafe. One that sends presets
 * puts those channels at their pulses; where the others stand is not known. Where the craft does
 * not say what the receiver does, nothing is known but what never changes.
 */
export function lossState(board: Switchboard, knownNames: readonly string[]): LossState {
  const spec = board.input.loss;
  const onLoss = spec?.onLoss ?? null;
  const lostBoard = onLoss === "preset" ? board.withPulses(spec!.pulsesUs) : board;
  const otherwise: LossOutcome = onLoss === "silent" || onLoss === "hold" ? "kept" : "either";
  const outcome = (set: StateSet | null): LossOutcome | null => {
    if (set === null) return null;
    if (set === lostBoard.sets.every) return "on";
    return set === lostBoard.sets.none ? "off" : otherwise;
  };
  const outcomes = new Map<string, LossOutcome>();
  for (const name of knownNames) {
    const result = outcome(lostBoard.selected(name));
    if (result) outcomes.set(name, result);
  }
  const named = (...expected: LossOutcome[]): readonly string[] =>
    [...outcomes.keys()].filter((name) => expected.includes(outcomes.get(name)!));
  return { onLoss, outcomes, armed: outcome(lostBoard.armed), on: named("on"), possible: named("kept", "either") };
}
