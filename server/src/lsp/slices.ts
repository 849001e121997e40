/** Long work in short slices, so that a client that cancels is heard within one of them. */
import type { CancellationToken } from "vscode-languageserver";
import type { Steps } from "../../../shared/text/steps.ts";
import { cancelled } from "./refused.ts";
import { pause } from "./timers.ts";

/** A client that cancels is answered within 50 ms: a slice, one step beyond it, and what else the process has to do. */
const SLICE_MS = 15;

/**
 * What comes of the steps.
 * @throws Refused once the client has cancelled
 */
export async function inSlices<T>(steps: Steps<T>, token?: CancellationToken): Promise<T> {
  for (let until = Date.now() + SLICE_MS; ; ) {
    if (token?.isCancellationRequested) throw cancelled();
    const next = steps.next();
    if (next.done) return next.value;
    if (Date.now() < until) continue;
    await pause();
    until = Date.now() + SLICE_MS;
  }
}
