/** Work in the background that gives way: it goes on in short slices, and while nobody asks for anything. */
import { pause } from "./timers.ts";

/** No request waits for longer, but for the one piece of work at hand. */
const SLICE_MS = 8;
/** Who types sends several messages with each key: none of them is to meet work that has just begun. */
const QUIET_MS = 40;
/** An editor that is never quiet does not stop it altogether. */
const PATIENCE_MS = 400;

export interface Turns {
  /** A message has come in. */
  heard(): void;
  /** Called between two pieces of work: gives way where it is time to. Gives whether it did. */
  giveWay(): Promise<boolean>;
}

/** Nobody has been heard yet. */
export function takeTurns(): Turns {
  let lastHeard = 0;
  let until = 0;
  return {
    heard() {
      lastHeard = Date.now();
      until = 0;
    },
    async giveWay() {
      if (Date.now() < until) return false;
      const begun = Date.now();
      await pause();
      while (Date.now() - lastHeard < QUIET_MS && Date.now() - begun < PATIENCE_MS) await pause(QUIET_MS / 4);
      until = Date.now() + SLICE_MS;
      return true;
    },
  };
}
