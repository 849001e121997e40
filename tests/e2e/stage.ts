/**
 * The tests' own extension in the editor: its one command gives the workspace other files, and brings
 * the editor back to where a new window is.
 */
import { ConfigurationTarget, commands, type ExtensionContext, extensions, Uri, window, workspace } from "vscode";
import { STAGE_COMMAND, type Stage } from "./stage-command.ts";

const SETTINGS_KEY = "settings";
/** A suite changes it by hand, in the palette. */
const THEME = "workbench.colorTheme";

export function activate({ globalState, subscriptions }: ExtensionContext): void {
  const set = async ({ files, settings, open, views }: Stage) => {
    await closeEverything();
    for (const name of [THEME, ...globalState.get<string[]>(SETTINGS_KEY, [])])
      if (!(name in settings)) await writeSetting(name, undefined);
    for (const [name, value] of Object.entries(settings)) await writeSetting(name, value);
    await globalState.update(SETTINGS_KEY, Object.keys(settings));
    await writeFiles(files);
    if (extensions.getExtension("fettle.fettle")?.isActive) await commands.executeCommand("fettle.restartServer");
    await commands.executeCommand("workbench.view.explorer");
    for (const view of views) await commands.executeCommand(`${view}.focus`);
    for (const path of open) await window.showTextDocument(inWorkspace(path), { preview: false });
  };
  subscriptions.push(commands.registerCommand(STAGE_COMMAND, set));
}

async function closeEverything(): Promise<void> {
  await commands.executeCommand("workbench.action.closeQuickOpen");
  // The next suite writes all files anyway, and what could not be saved over them would stay open.
  for (const document of workspace.textDocuments.filter(({ isDirty }) => isDirty)) {
    await window.showTextDocument(document);
    await commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
  }
  for (const command of [
    "workbench.action.closeAllGroups",
    "workbench.action.closePanel",
    "workbench.action.closeAuxiliaryBar",
    "workbench.action.clearEditorHistoryWithoutConfirm",
    "notifications.clearAll",
  ])
    await commands.executeCommand(command);
}

async function writeSetting(name: string, value: unknown): Promise<void> {
  const configuration = workspace.getConfiguration();
  if (JSON.stringify(configuration.inspect(name)?.globalValue) !== JSON.stringify(value))
    await configuration.update(name, value, ConfigurationTarget.Global);
}

async function writeFiles(files: Stage["files"]): Promise<void> {
  await removeOthers("", new Set(Object.keys(files)));
  for (const [path, text] of Object.entries(files))
    if ((await textOf(path)) !== text) await workspace.fs.writeFile(inWorkspace(path), new TextEncoder().encode(text));
}

/** Deletes what is not to stay below a folder, whole folders at once. */
async function removeOthers(folder: string, staying: ReadonlySet<string>): Promise<void> {
  const stays = (path: string) => staying.has(path) || [...staying].some((each) => each.startsWith(`${path}/`));
  for (const [name] of await workspace.fs.readDirectory(inWorkspace(folder))) {
    const path = folder ? `${folder}/${name}` : name;
    if (!stays(path)) await workspace.fs.delete(inWorkspace(path), { recursive: true });
    else if (!staying.has(path)) await removeOthers(path, staying);
  }
}

async function textOf(path: string): Promise<string | null> {
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(inWorkspace(path)));
  } catch {
    return null;
  }
}

function inWorkspace(path: string): Uri {
  const folder = workspace.workspaceFolders?.[0];
  if (!folder) throw new Error("There is no workspace.");
  return Uri.joinPath(folder.uri, path);
}
