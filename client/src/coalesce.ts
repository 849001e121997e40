/** Work that is asked for faster than it is done: of all that came meanwhile only one more run is due. */

/** Gives a function that runs `work`, never twice at once; calls during a run lead to one run after it. */
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
