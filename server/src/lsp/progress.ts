/** How far work is that takes long, as a client shows it. */
import type { Connection, WorkDoneProgressReporter } from "vscode-languageserver";
import { logError } from "./guard.ts";

/** Work on so many is over before anybody could read what it is about. */
const FEW = 100;
const SHOWN_EVERY_MS = 200;

/** Shows how many scripts are left of some work, where they are many; zero ends it. Nothing is shown by a client that cannot. */
export function shownProgress(connection: Connection, title: string): (left: number) => void {
  let most = 0;
  let lastMs = 0;
  let shown: Promise<WorkDoneProgressReporter | null> | null = null;
  const begin = async (): Promise<WorkDoneProgressReporter | null> => {
    try {
      const made = await connection.window.createWorkDoneProgress();
      made.begin(title, 0, undefined, false);
      return made;
    } catch (error) {
      logError(connection, "progress", error);
      return null;
    }
  };
  return (left) => {
    if (left === 0) {
      void shown?.then((made) => made?.done());
      shown = null;
      most = 0;
      return;
    }
    most = Math.max(most, left);
    if (shown === null && left <= FEW) return;
    shown ??= begin();
    if (Date.now() - lastMs < SHOWN_EVERY_MS) return;
    lastMs = Date.now();
    const [done, all] = [most - left, most];
    void shown.then((made) => made?.report(Math.floor((100 * done) / all), `${done} of ${all}`));
  };
}
