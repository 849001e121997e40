// Every host has timers: a worker, and Node.
declare function setTimeout(work: () => void, delayMs: number): number;
declare function clearTimeout(timer: number | undefined): void;

/** Lets everything go first that waits for its turn, and at least `delayMs` pass. */
export function pause(delayMs = 0): Promise<void> {
  return new Promise((resolve) => void setTimeout(resolve, delayMs));
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
