/** Asks for a craft of the workspace. */
import { commands, Uri, workspace } from "vscode";
import { asideOf, craftInOrder } from "../../shared/draw/workspace-outline.ts";
import type { ListedCraft } from "../../shared/protocol/panel-messages.ts";
import type { WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import { pickOne, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

/** Every craft of the workspace, as the panel lists them while no script is open. */
export async function craftForPanel(scripts: Pick<WorkspaceScripts, "list">): Promise<readonly ListedCraft[]> {
  const tree = await scripts.list();
  if (!tree) return [];
  return craftInOrder(tree).map((index) => {
    const { file, name } = tree.files[index]!;
    return { file, name, aside: asideOf(tree, index, pathOf) };
  });
}

function pathOf(file: string): string {
  return workspace.asRelativePath(Uri.parse(file), false);
}

/** The chosen craft; undefined where it was dismissed. Where there is none, offers to make one. */
export async function pickCraft(
  tree: WorkspaceTree | null,
  title: string,
  among?: readonly number[],
): Promise<Uri | undefined> {
  const all = tree ? craftInOrder(tree).filter((index) => !among || among.includes(index)) : [];
  if (!tree || all.length === 0) {
    const make = "New Craft…";
    const chosen = await tellInformation("There is no craft in this workspace yet.", make);
    if (chosen === make) await commands.executeCommand("fettle.newCraft");
    return undefined;
  }
  const items = all.map((index) => {
    const { file, name } = tree.files[index]!;
    return { label: name, description: asideOf(tree, index, pathOf), detail: pathOf(file), uri: Uri.parse(file) };
  });
  const chosen = await pickOne(items, {
    title,
    placeHolder: "Name, handset or file",
    matchOnDetail: true,
  });
  return chosen?.uri;
}
