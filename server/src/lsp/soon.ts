// Every host has timers: a worker, and Node.
declare function setTimeout(work: () => void, delayMs: number): number;
declare function clearTimeout(timer: number | undefined): void;

/** Once typing pauses for `delayMs`, does the work; every new call starts the wait again. */
export function soon(work: () => void, delayMs: number): () => void {
  let waiting: number | undefined;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(work, delayMs);
  };
}
