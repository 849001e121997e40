/** The lost signal as the panel plays it: all that may happen, and the phase that is looked at. */
import { signalLossOf } from "../../loss/signal-loss.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { SignalPhase, SignalPicture, SignalStep } from "../../protocol/signal.ts";

/**
 * The picture at a step, or where the script has no such step (it may have changed since) at the nearest one that
 * it has. Without a step it begins as soon as somebody has noticed the loss.
 */
export function signalPictureOf(craft: Craft, workspace: Workspace, step: SignalStep | undefined): SignalPicture {
  const loss = signalLossOf(craft, workspace);
  const course = within(step?.course ?? 0, loss.courses.length);
  const { phases } = loss.courses[course]!;
  const noticed = phases.findIndex(({ deed }) => deed.kind !== "unnoticed");
  return { ...loss, at: { course, phase: within(step?.phase ?? noticed, phases.length) } };
}

/** The phase that is looked at. */
export function phaseAt({ courses, at }: SignalPicture): SignalPhase {
  return courses[at.course]!.phases[at.phase]!;
}

function within(index: number, count: number): number {
  return Math.max(0, Math.min(count - 1, Math.floor(index) || 0));
}
