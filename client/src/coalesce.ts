/** Coalesces requests that come faster than they can be done: all requests during a run lead to one more run. */

/** Returns a function that runs `work`, never twice at the same time; calls during a run lead to one run after it. */
export function coalesce(work: () => Promise<void>): () => void {
  let running = false;
  let again = false;
  const run = async () => {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      do {
        again = false;
        await work();
      } while (again);
    } finally {
      running = false;
    }
  };
  return () => void run();
}
