/**
 * Work over many files in steps, so that whoever runs it may pause between two of them or give it up: a server does
 * both, a command line neither. A step should take a millisecond or less.
 */
export type Steps<T> = Generator<void, T, void>;

/** Runs all steps at once and gives what comes of them. */
export function finish<T>(steps: Steps<T>): T {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
}
