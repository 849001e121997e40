/** What can be done with a row of the workspace's tree. */
import { commands, type Disposable, type Uri } from "vscode";
import type { OutlineRow } from "../../shared/draw/workspace-outline.ts";
import { addressOf } from "./addresses.ts";
import type { CompareCommands } from "./compare-with.ts";
import type { LensCommands } from "./lens-commands.ts";
import type { PanelHost } from "./panel-host.ts";
import type { ReviewCommands } from "./review-commands.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";
import { uriOfRow } from "./workspace-tree.ts";

/** Registers them; each is in the menu of rows alone, since it needs one. */
export function treeCommands(
  scripts: Pick<WorkspaceScripts, "look">,
  panel: Pick<PanelHost, "show">,
  lenses: Pick<LensCommands, "showUsers" | "showEffective">,
  sides: Pick<CompareCommands, "compareWith"> & Pick<ReviewCommands, "review" | "carryOver">,
): Disposable[] {
  const onRow = (name: string, work: (uri: Uri) => unknown) =>
    commands.registerCommand(name, (row: OutlineRow) => {
      const uri = uriOfRow(row, scripts.look());
      return uri && work(uri);
    });
  return [
    onRow("fettle.row.open", (uri) => commands.executeCommand("vscode.open", uri, { preview: false })),
    onRow("fettle.row.showInPanel", (uri) => panel.show("goggles", addressOf(uri))),
    onRow("fettle.row.showBench", (uri) => panel.show("bench", addressOf(uri))),
    onRow("fettle.row.showEffective", (uri) => lenses.showEffective(uri)),
    onRow("fettle.row.showUsers", (uri) => lenses.showUsers(uri)),
    onRow("fettle.row.share", (uri) => commands.executeCommand("fettle.share", uri)),
    onRow("fettle.row.compareWith", (uri) => sides.compareWith(uri)),
    onRow("fettle.row.review", (uri) => sides.review(uri)),
    onRow("fettle.row.carryOver", (uri) => sides.carryOver(uri)),
    onRow("fettle.row.reveal", (uri) => commands.executeCommand("revealInExplorer", uri)),
  ];
}
