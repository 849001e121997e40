/** Long work in short slices, so that a client that cancels is heard within one of them. */
import type { CancellationToken } from "vscode-languageserver";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import { CODES, cancelled, Refused } from "./refused.ts";
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

/** A pilot who types all the time does not have the work begun anew for ever. */
const MOST_BEGINNINGS = 5;

/**
 * What comes of steps over all files at one moment. Where one of them changes meanwhile, the steps are begun anew, so
 * that the answer belongs to the texts and versions that are there when this is done.
 * @throws Refused once the client has cancelled, and where the files change again and again
 */
export async function inSlicesOver<T>(
  documents: { now(): Workspace },
  stepsOf: (now: Workspace) => Steps<T>,
  token?: CancellationToken,
): Promise<T> {
  for (let beginning = 0; beginning < MOST_BEGINNINGS; beginning++) {
    const now = documents.now();
    const made = await inSlices(stepsOf(now), token);
    if (documents.now() === now) return made;
  }
  throw new Refused("The scripts change faster than this can be worked out.", CODES.contentModified);
}
