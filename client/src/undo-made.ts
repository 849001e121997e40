/** What a tab wrote last, which it can undo. */
import type { Told } from "../../shared/protocol/tab-messages.ts";
import type { Keyboard } from "./keyboard.ts";
import { stepIn } from "./step-in.ts";
import type { Made } from "./versioned-edits.ts";

export interface LastMade {
  /** Keeps what was written, and tells of it. */
  told(made: Made, message: string): Told;
  /** Undoes it where nothing was changed since; gives what is to be told then. */
  undo(keyboard: Keyboard): Promise<Told | null>;
}

/** Nothing was written yet. */
export function lastMade(): LastMade {
  let last: Made | undefined;
  return {
    told(made, message) {
      last = made;
      return { message, undo: made.documents.length > 0 };
    },
    async undo(keyboard) {
      const made = last;
      last = undefined;
      const [first] = made?.documents ?? [];
      if (!made || !first) return null;
      // An undo takes back the last step, whatever that is.
      const isLast = made.documents.every(
        ({ document, version }) => !document.isClosed && document.version === version,
      );
      if (!isLast)
        return {
          message:
            "The script was changed since, so undoing now would take that back: undo it step by step in the script.",
          undo: false,
        };
      await stepIn("undo", first.document, keyboard);
      return null;
    },
  };
}
