/** What the modes do when the signal is lost. */
import type { LossOutcome, LossState, StateSet, Switchboard } from "./switchboard-types.ts";

/**
 * What each mode does once the signal is lost. If the receiver falls silent or holds, every mode stays
 * as it was; what the flight controller then does is its failsafe. If it sends presets, those channels
 * have the given pulses, and the others are not known. Where the craft does not set what the receiver
 * does, only modes that are constant are known. `knownNames` are the names whose condition is known.
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
