/** What the buttons of the panel's page start: the only commands that a page can run. */
import { commands } from "vscode";
import type { PanelAction } from "../../shared/protocol/panel-messages.ts";

const COMMANDS: Readonly<Record<PanelAction["name"], string>> = {
  "new-craft": "fettle.newCraft",
};

/** Runs the command of an action. */
export function runAction({ name }: PanelAction): void {
  void commands.executeCommand(COMMANDS[name]);
}
