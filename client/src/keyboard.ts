/** Gives the keyboard back to a page of the panel, after a question or a step that had to have it. */
import { commands } from "vscode";

export interface Keyboard {
  /** Runs commands of the editor and gives the keyboard back to the page, in one go: no key comes in between. */
  giveBack(after?: readonly string[]): Promise<void>;
  /** The page tells that it has got the keyboard, or, where it was asked, whether it has it. */
  answered(has: boolean): void;
}

/** Twice as long as the editor takes to pass the keyboard on to a page, and more. */
const ASKED_AFTER_MS = 150;
/** A page that is closed meanwhile answers nothing. */
const GIVEN_UP_AFTER_MS = 2_000;
const MOST_TRIES = 4;

/** `command` gives the editor's command that lets the page, which is open, have the keyboard; `ask` asks the page whether it has. */
export function keyboardOf(command: () => string, ask: () => void): Keyboard {
  let resolveAnswer: (has: boolean) => void = () => undefined;
  return {
    async giveBack(after = []) {
      let due = [...after, command()];
      for (let tries = 0; tries < MOST_TRIES; tries++) {
        const answer = new Promise<boolean>((resolve) => {
          resolveAnswer = resolve;
        });
        await commands.executeCommand("runCommands", { commands: due });
        // Only now, however long that took: a page that is asked too early has it no more, or not yet.
        const timers = [setTimeout(ask, ASKED_AFTER_MS), setTimeout(() => resolveAnswer(true), GIVEN_UP_AFTER_MS)];
        const has = await answer;
        for (const timer of timers) clearTimeout(timer);
        if (has) return;
        // The editor looks now and then whether a page still has the keyboard. If it looks in the midst of
        // this, it takes the page for one that has lost it, and passes nothing on. Nobody else can have it
        // then, as no key arrives anywhere: so it is asked for again, and closes nothing that was opened.
        due = [command()];
      }
    },
    answered: (has) => resolveAnswer(has),
  };
}
