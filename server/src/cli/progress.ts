/** How far long work is, told at a terminal. */
import type { Steps } from "../../../shared/text/steps.ts";
import type { Io } from "./io.ts";

/** Who waits for less sees nothing of it. */
const FIRST_MS = 300;
/** A terminal that is far away is not flooded. */
const BETWEEN_MS = 100;

/** Runs all steps, and shows after how many of them it is; nothing where standard error is no terminal. */
export function finishShown<T>(steps: Steps<T>, io: Pick<Io, "progress">, words: (done: number) => string): T {
  const { progress } = io;
  let due = Date.now() + FIRST_MS;
  let isShown = false;
  try {
    for (let done = 0; ; done++) {
      const next = steps.next();
      if (next.done) return next.value;
      if (!progress || Date.now() < due) continue;
      progress(words(done));
      isShown = true;
      due = Date.now() + BETWEEN_MS;
    }
  } finally {
    if (isShown) progress?.(null);
  }
}
