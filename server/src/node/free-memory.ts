/**
 * Memory is given back in a silence. An engine lets its heap grow while much is done, and by itself gives back only
 * what a later collection finds to be empty; of a server that is asked nothing that would be never.
 */
import type { Session } from "node:inspector";

/** Longer than a pilot thinks between two keys: code that has just become fast may go with the memory. */
const SILENCE_MS = 2500;
/** Less is not worth the 25 ms that it takes. */
const WORTH_BYTES = 4 * 1024 * 1024;

/** Gives what to call with every message: in the silence after it memory is given back, where there is some. */
export function freeInSilence(free = collectAll): () => void {
  let least = 0;
  let timer: NodeJS.Timeout | undefined;
  const run = async () => {
    timer = undefined;
    if (process.memoryUsage().heapTotal < least + WORTH_BYTES) return;
    await free();
    least = process.memoryUsage().heapTotal;
  };
  return () => {
    // Moved on rather than made anew, as there is one with every key.
    if (timer) timer.refresh();
    else {
      timer = setTimeout(() => void run(), SILENCE_MS);
      timer.unref();
    }
  };
}

/** What an engine does when memory runs low: of its debugger's interface it can be had without a flag. */
async function collectAll(): Promise<void> {
  let session: Session;
  try {
    const inspector = await import("node:inspector");
    session = new inspector.Session();
    session.connect();
  } catch {
    // An engine that was built without it.
    return;
  }
  await new Promise<void>((resolve) => session.post("HeapProfiler.collectGarbage", () => resolve()));
  session.disconnect();
}
