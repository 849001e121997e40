// Every host has timers: a worker, and Node.
declare function setTimeout(work: () => void, delayMs: number): number;
declare function clearTimeout(timer: number | undefined): void;

/** Lets everything go first that waits for its turn, and at least `delayMs` pass. */
export function pause(delayMs = 0): Promise<void> {
  return new Promise((resolve) => void setTimeout(resolve, delayMs));
}

/** Only Node has it: a timer takes a millisecond at least, which is much between two slices of an answer. */
declare const setImmediate: ((work: () => void) => void) | undefined;

/** As `pause`, with no more delay than the host needs: what has come in meanwhile is read, and then handled. */
export async function giveTurn(): Promise<void> {
  if (typeof setImmediate !== "function") return pause();
  // In the first turn a message is read, and handed on to the second.
  for (let turn = 0; turn < 2; turn++) await new Promise<void>((resolve) => setImmediate(resolve));
}

/** Waits for `work`, but no longer than `mostMs`. Gives whether it was done by then. */
export async function atMost(mostMs: number, work: Promise<unknown>): Promise<boolean> {
  let timer: number | undefined;
  const late = new Promise<false>((resolve) => {
    timer = setTimeout(() => resolve(false), mostMs);
  });
  const isDone = await Promise.race([work.then(() => true as const), late]);
  clearTimeout(timer);
  return isDone;
}

/** So long work goes on before others have their turn. */
const SLICE_MS = 8;

/** Gives a call for between two pieces of work: where enough time has passed, it lets others have their turn first. */
export function makeBreather(): () => Promise<void> | undefined {
  let until = Date.now() + SLICE_MS;
  return () => {
    if (Date.now() < until) return undefined;
    return pause().then(() => {
      until = Date.now() + SLICE_MS;
    });
  };
}
