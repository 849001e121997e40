/** Messages that arrive one after the other, at once or late, and several in one go. */

export interface Transport {
  send(message: unknown): void;
  /** Whether anything is under way. */
  isBusy(): boolean;
  /** Nothing that is under way arrives. */
  lose(): void;
}

/** `lateMs` gives for each message how long it takes; none arrives before one that was sent before it. */
export function transport(
  lateMs: () => number,
  deliver: (messages: readonly unknown[]) => Promise<void> | void,
  failed: (error: unknown) => void,
): Transport {
  let waiting: { readonly message: unknown; readonly dueMs: number }[] = [];
  let isRunning = false;
  const run = async () => {
    if (isRunning) return;
    isRunning = true;
    try {
      while (waiting.length > 0) {
        const leftMs = waiting[0]!.dueMs - performance.now();
        if (leftMs > 0) {
          await new Promise((resolve) => setTimeout(resolve, leftMs));
          continue;
        }
        const now = performance.now();
        const end = waiting.findIndex(({ dueMs }) => dueMs > now);
        const due = waiting.splice(0, end < 0 ? waiting.length : end);
        await deliver(due.map(({ message }) => message));
      }
    } catch (error) {
      failed(error);
    } finally {
      isRunning = false;
    }
  };
  return {
    send(message) {
      waiting.push({ message, dueMs: performance.now() + lateMs() });
      void run();
    },
    isBusy: () => isRunning || waiting.length > 0,
    lose() {
      waiting = [];
    },
  };
}
