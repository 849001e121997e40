/** Returns the keyboard focus to a page of the panel, after a question or a command that needed it. */
import { commands } from "vscode";

export interface Keyboard {
  /** Runs commands of the editor and returns the focus to the page in one batch: no key is handled in between. */
  giveBack(after?: readonly string[]): Promise<void>;
  /** The page reports that it has received the focus or, if it was asked, whether it has it. */
  answered(has: boolean): void;
}

/** More than twice the time that the editor takes to move the focus to a page. */
const ASKED_AFTER_MS = 150;
/** A page that is closed in the meantime does not answer. */
const GIVEN_UP_AFTER_MS = 2_000;
const MOST_TRIES = 4;

/** `command` returns the editor's command that focuses the page, which is open; `ask` asks the page whether it has the focus. */
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
        // Only after the commands are done: a page that is asked too early may have lost the focus, or not have it yet.
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
