/** A core besides the one by which answers are given, so that what the pilot works on stays remembered there. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";

export interface PassingCore {
  /** The core of a catalogue: the same for a while, and none is kept of another catalogue. */
  by(catalogue: Catalogue): Core;
  /** Another number for another catalogue. */
  numberOf(catalogue: Catalogue): number;
  /** Something was read by it. */
  used(): void;
  /** Forgets all that is remembered. */
  letGo(): void;
}

/**
 * A core for what is read in passing. What it remembers is let go after so many uses, as a core keeps every file that
 * it has ever read: the scripts of a thousand craft would be memory for nothing.
 */
export function passingCore(mostUses: number): PassingCore {
  let made: Core | null = null;
  let uses = 0;
  let last: { readonly of: Catalogue; readonly number: number } | null = null;
  return {
    by(catalogue) {
      if (made?.catalogue !== catalogue) made = makeCore(catalogue);
      return made;
    },
    numberOf(catalogue) {
      if (last?.of !== catalogue) last = { of: catalogue, number: (last?.number ?? 0) + 1 };
      return last.number;
    },
    used() {
      uses++;
      if (uses % mostUses === 0) made = null;
    },
    letGo() {
      made = null;
    },
  };
}
