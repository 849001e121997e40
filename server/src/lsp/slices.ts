/** Long work in short slices, so that a client that cancels is heard within one of them. */
import type { CancellationToken } from "vscode-languageserver";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import { CODES, cancelled, Refused } from "./refused.ts";
import { giveTurn } from "./timers.ts";

/** A client that cancels is answered within 50 ms: a slice, one step beyond it, and what else the process has to do. */
const SLICE_MS = 15;

/**
 * What comes of the steps.
 * @throws Refused once the client has cancelled
 */
export async function inSlices<T>(steps: Steps<T>, token?: CancellationToken): Promise<T> {
  const done = await inSlicesWhile(() => true, steps, token);
  return done!.made;
}

/**
 * What comes of steps over all files at one moment; null where one of them changed meanwhile. The steps go no further
 * then: what they have seen is of one moment, and what they would see is of another, in which a craft that they work
 * on may be none.
 * @throws Refused once the client has cancelled
 */
export function inSlicesAtOnce<T>(
  documents: { now(): Workspace },
  stepsOf: (now: Workspace) => Steps<T>,
  token?: CancellationToken,
): Promise<{ readonly made: T } | null> {
  const now = documents.now();
  return inSlicesWhile(() => documents.now() === now, stepsOf(now), token);
}

async function inSlicesWhile<T>(
  isCurrent: () => boolean,
  steps: Steps<T>,
  token?: CancellationToken,
): Promise<{ readonly made: T } | null> {
  underWay++;
  try {
    for (let until = Date.now() + SLICE_MS; ; ) {
      if (token?.isCancellationRequested) throw cancelled();
      const next = steps.next();
      if (next.done) return { made: next.value };
      if (Date.now() < until) continue;
      await giveTurn();
      if (!isCurrent()) return null;
      until = Date.now() + SLICE_MS;
    }
  } finally {
    underWay--;
  }
}

/** Works in slices that are not done, in this process. */
let underWay = 0;

/** Whether somebody waits for work in slices: what is done in the background would make each of its pauses long. */
export function isSlicing(): boolean {
  return underWay > 0;
}

/** A pilot who types all the time does not have the work begun anew for ever: so often at least, and for so long. */
const MOST_BEGINNINGS = 5;
const LONGEST_MS = 1000;

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
  const until = Date.now() + LONGEST_MS;
  for (let beginning = 0; beginning < MOST_BEGINNINGS || Date.now() < until; beginning++) {
    const done = await inSlicesAtOnce(documents, stepsOf, token);
    if (done) return done.made;
  }
  throw new Refused("The scripts change faster than this can be worked out.", CODES.contentModified);
}
