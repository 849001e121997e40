/**
 * Memory is given back in a silence. An engine lets its heap grow while much is done, and by itself gives back only
 * what a later collection finds to be empty; of a server that is asked nothing that would be never. Where no silence
 * comes, a heap that is large grows by a part of itself and no more before it is collected.
 */
import type { Session } from "node:inspector";
import { getHeapStatistics, setFlagsFromString } from "node:v8";

/** Longer than a pilot thinks between two keys: code that has just become fast may go with the memory. */
const SILENCE_MS = 2500;
/** Less is not worth the 25 ms that it takes. */
const WORTH_BYTES = 4 * 1024 * 1024;

/**
 * A smaller heap is collected when the engine thinks best: a craft that is opened in it, and typed in, costs no more.
 * A thousand craft come to 100 MB and more.
 */
const LARGE_BYTES = 64 * 1024 * 1024;
/**
 * By itself the engine lets a heap become up to four times of what the last collection left, as long as much is done:
 * of a thousand craft half a gigabyte, most of which nobody uses.
 */
const LARGE_GROWTH_PERCENT = 40;
/** To look takes microseconds, but messages come many at once. */
const BETWEEN_LOOKS_MS = 1000;

/** Gives what to call with every message: for as long as the heap is large, it is collected in time. */
export function boundGrowth(heapBytes = totalHeap, setGrowth = setHeapGrowth): () => void {
  let next = 0;
  let isBounded = false;
  return () => {
    const now = Date.now();
    if (now < next) return;
    next = now + BETWEEN_LOOKS_MS;
    const isLarge = heapBytes() >= LARGE_BYTES;
    if (isLarge !== isBounded) setGrowth(isLarge ? LARGE_GROWTH_PERCENT : 0);
    isBounded = isLarge;
  };
}

function totalHeap(): number {
  return getHeapStatistics().total_heap_size;
}

/** By how much a heap may grow between two collections; 0: as the engine thinks best. It asks for that whenever it has collected. */
function setHeapGrowth(percent: number): void {
  setFlagsFromString(`--heap-growing-percent=${percent}`);
}

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
export async function collectAll(): Promise<void> {
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
