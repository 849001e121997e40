/** Work in the background that gives way: it goes on in short slices, and while nobody asks for anything. */
import { isSlicing } from "./slices.ts";
import { pause } from "./timers.ts";

/** No request waits for longer, but for the one piece of work at hand. */
const SLICE_MS = 6;
/** An editor sends several messages at once: none of them is to meet work that has just begun. */
const QUIET_MS = 40;
/** Between two keys less time passes: whoever types is not to notice anything. */
const TYPING_MS = 300;
/** An editor that is never quiet does not stop it altogether. */
const PATIENCE_MS = 2000;

export interface Turns {
  /** A message has come in. */
  heard(): void;
  /** It was a key. */
  typed(): void;
  /** Called between two pieces of work: gives way where it is time to. Gives whether it did. */
  giveWay(): Promise<boolean>;
}

/** Nobody has been heard yet. */
export function takeTurns(): Turns {
  let quietFrom = 0;
  let until = 0;
  const waitFor = (forMs: number) => {
    quietFrom = Math.max(quietFrom, Date.now() + forMs);
    until = 0;
  };
  return {
    heard: () => waitFor(QUIET_MS),
    typed: () => waitFor(TYPING_MS),
    async giveWay() {
      if (Date.now() < until) return false;
      const begun = Date.now();
      await pause();
      while ((Date.now() < quietFrom || isSlicing()) && Date.now() - begun < PATIENCE_MS) await pause(QUIET_MS / 4);
      until = Date.now() + SLICE_MS;
      return true;
    },
  };
}
