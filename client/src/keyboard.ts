/** Gives the keyboard back to a page of the panel, after a question or a step that had to have it. */
import { commands } from "vscode";

export interface Keyboard {
  /** Runs commands of the editor and gives the keyboard back to the page, in one go: no key comes in between. */
  giveBack(after?: readonly string[]): Promise<void>;
  /** The page tells that it has the keyboard. */
  arrived(): void;
}

/** Longer than the editor needs to pass the keyboard on, and than the interval in which it looks who has it. */
const PATIENCE_MS = 300;
const MOST_TRIES = 4;

/** `command` gives the editor's command that lets the page, which is open, have the keyboard. */
export function keyboardOf(command: () => string): Keyboard {
  let waiting: ((came: boolean) => void) | undefined;
  const arrival = () =>
    new Promise<boolean>((resolve) => {
      const giveUp = setTimeout(resolve, PATIENCE_MS, false);
      waiting = (came) => {
        clearTimeout(giveUp);
        resolve(came);
      };
    });
  return {
    async giveBack(after = []) {
      let due = [...after, command()];
      for (let tries = 0; tries < MOST_TRIES; tries++) {
        const came = arrival();
        await commands.executeCommand("runCommands", { commands: due });
        if (await came) return;
        // The editor looks now and then whether a page still has the keyboard. If it looks in the midst of
        // this, it takes the page for one that has lost it, and passes nothing on: so it is asked again.
        due = [command()];
      }
    },
    arrived: () => waiting?.(true),
  };
}
