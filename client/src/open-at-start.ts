/** Opens the script that a folder's settings name as the first to open. */
import { TabInputText, TabInputWebview, Uri, window, workspace } from "vscode";
import { tellWarning } from "./shown-window.ts";

/** Opens what `fettle.openAtStart` names, unless something else is open already. */
export async function openAtStart(): Promise<void> {
  const folder = workspace.workspaceFolders?.[0];
  const path = workspace.getConfiguration("fettle", folder?.uri).get<string>("openAtStart", "");
  if (!folder || path === "" || isSomethingOpen()) return;
  // An absolute path or one with ".." leads out of the folder, and a setting of a folder must not do so.
  if (path.startsWith("/") || path.split(/[\\/]/).includes("..")) return;
  try {
    await window.showTextDocument(Uri.joinPath(folder.uri, path));
  } catch {
    tellWarning(
      `The script ${path} could not be opened. The setting fettle.openAtStart names it: correct the path, or empty it.`,
    );
  }
}

/** A script, or the panel's tab, that the editor is restoring has a tab before it has an editor; a welcome page does not count. */
function isSomethingOpen(): boolean {
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  const isOurs = ({ viewType }: TabInputWebview) => viewType.includes("fettle.");
  return (
    window.visibleTextEditors.length > 0 ||
    tabs.some(({ input }) => input instanceof TabInputText || (input instanceof TabInputWebview && isOurs(input)))
  );
}
