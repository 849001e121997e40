/** Tells the editor whether a script is in sight, so that no command is offered that needs one and has none. */
import { commands, type Disposable, window } from "vscode";
import { activeScript } from "./script-editors.ts";

/** The context by which the manifest shows commands. */
export const SCRIPT_CONTEXT = "fettle.script";

/** Sets the context now, and whenever other editors are in sight. */
export function followContext(): Disposable[] {
  let last: boolean | undefined;
  const update = () => {
    // A script that was drawn stays drawn where other files cover it: so does what can be done with it.
    const now = last === true || activeScript() !== undefined;
    if (now === last) return;
    last = now;
    void commands.executeCommand("setContext", SCRIPT_CONTEXT, now);
  };
  update();
  return [window.onDidChangeVisibleTextEditors(update), window.onDidChangeActiveTextEditor(update)];
}
