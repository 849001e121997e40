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
