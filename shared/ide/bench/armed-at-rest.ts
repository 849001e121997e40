/** Whether a craft can be armed at all, and whether it is so with every control at rest: then no step may take it for disarmed. */
import { boardOf } from "../../logic/from-craft.ts";
import { postureOf } from "./arming-posture.ts";
import type { BenchView } from "./bench-view.ts";
import { controlWords, movesAsked } from "./control-words.ts";

/** Whether something arms the craft, as far as it is known: a mode that some position turns on, or the sticks. */
export function canArm(view: BenchView): boolean {
  if (view.word("safety.stick-arming") === "yes") return true;
  if (!view.mode("arm")) return false;
  const { armed, sets } = boardOf(view.craft, view.workspace);
  return armed !== sets.none;
}

const known = new WeakMap<BenchView, string | null>();

/** What to do first, as a sentence, where the craft is armed with every control at rest, or may be; null where it is not. */
export function armedAtRest(view: BenchView): string | null {
  if (!known.has(view)) known.set(view, atRestOf(view));
  return known.get(view)!;
}

function atRestOf(view: BenchView): string | null {
  const mode = view.mode("arm");
  if (!mode) return null;
  const board = boardOf(view.craft, view.workspace);
  const rest = board.sets.where(board.rest);
  const arm = board.selected("arm");
  const isOn = (set: typeof arm) => (set === null ? null : board.sets.meet(rest, set));
  if (isOn(arm) === false || isOn(board.armed) === false) return null;
  if (arm === null || board.armed === null)
    return "Whether this craft is armed with every control at rest is not known: take it for armed, and mend what the script does not say first.";
  const words = controlWords(view);
  const found = postureOf(view, words);
  const moves = found.kind === "posture" && found.posture.moves.length > 0 ? found.posture.baseMoves : [];
  const condition = `(arm ${mode.text})`;
  return moves.length === 0
    ? `As the script has it this craft is armed with every control at rest ${condition}: mend that line before it gets power.`
    : `As the script has it this craft is armed with every control at rest, or may be ${condition}: best mend that line first; else ${movesAsked(words, moves)} before it gets power, and keep that wherever it shall be disarmed.`;
}
