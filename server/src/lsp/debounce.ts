// Every host has timers: a worker, and Node.
declare function setTimeout(work: () => void, delayMs: number): number;
declare function clearTimeout(timer: number | undefined): void;

/** Runs `work` once `delayMs` have passed without another call. */
export function debounce(work: () => void, delayMs: number): (delayMs?: number) => void {
  let waiting: number | undefined;
  return (inMs = delayMs) => {
    clearTimeout(waiting);
    waiting = setTimeout(work, inMs);
  };
}
