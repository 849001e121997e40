// Every host has timers: a worker, and Node.
declare function setTimeout(work: () => void, delayMs: number): number;
declare function clearTimeout(timer: number | undefined): void;

/** Once it is called for and `delayMs` have passed, does the work; every new call starts the wait again. */
export function debounce(work: () => void, delayMs: number): (delayMs?: number) => void {
  let waiting: number | undefined;
  return (inMs = delayMs) => {
    clearTimeout(waiting);
    waiting = setTimeout(work, inMs);
  };
}
