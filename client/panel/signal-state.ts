/** The lost signal as the page has chosen it, until a model agrees. */
import { useEffect, useState } from "preact/hooks";
import type { SignalPicture, SignalStep } from "../../shared/protocol/signal.ts";
import { postToHost, saveState } from "./host.ts";

/** Whether the signal is lost, and a function that changes it, here and in every other view. */
export function useSignal(signal: SignalPicture | undefined): ["lost" | "up", (is: "lost" | "up") => void] {
  const modelled = signal ? "lost" : "up";
  const [is, set] = useState<"lost" | "up">(modelled);
  useEffect(() => set(modelled), [signal]);
  const change = (next: "lost" | "up") => {
    set(next);
    saveState({ scenario: next === "lost" ? "signal-lost" : null });
    postToHost({ kind: "signal", is: next });
  };
  return [is, change];
}

const START: SignalStep = { course: 0, phase: 0 };

/** The step that is shown, always one that the picture has, and a function that goes to another. */
export function useSignalStep(signal: SignalPicture | undefined): [SignalStep, (at: SignalStep) => void] {
  const [at, set] = useState(signal?.at ?? START);
  useEffect(() => {
    if (signal) set(signal.at);
  }, [signal]);
  const go = (next: SignalStep) => {
    set(next);
    saveState({ signal: next });
    postToHost({ kind: "signal-step", at: next });
  };
  const has = signal?.courses[at.course]?.phases[at.phase] !== undefined;
  return [has ? at : (signal?.at ?? START), go];
}
