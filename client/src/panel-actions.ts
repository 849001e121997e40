/** What the buttons of the panel's page start: the only commands that a page can run. */
import { commands, Uri } from "vscode";
import { PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import type { PanelAction } from "../../shared/protocol/ways.ts";
import { FLEET_COMMANDS } from "./fleet-commands.ts";
import { fillIn, type Inserting, repair, useInCraft } from "./insertions.ts";
import { selectLine } from "./script-editors.ts";

/** The actions that are a command of the editor and nothing else. */
const COMMANDS = {
  "new-craft": "fettle.newCraft",
  "new-handset": "fettle.newHandset",
  "begin-osd": "fettle.beginOsd",
  enlarge: "fettle.showPanelBeside",
  ...FLEET_COMMANDS,
  "find-update": "workbench.extensions.action.checkForUpdates",
  "restart-server": "fettle.restartServer",
  "show-log": "fettle.showLog",
} as const;

/** Does what an action names; what it writes itself is written by `inserting`. */
export function runAction(action: PanelAction, inserting: Inserting): Thenable<unknown> {
  switch (action.name) {
    case "go":
      return selectLine(action.at);
    case "fill-in":
      return fillIn(inserting, action.file, action.what);
    case "repair":
      return repair(inserting, action.file, { at: action.at, code: action.code, title: action.title });
    case "use-handset":
      return commands.executeCommand("fettle.useHandset", action.file);
    case "use-in-craft":
      return useInCraft(inserting, action.file);
    case "map-controls":
      return commands.executeCommand("fettle.mapControls", action.file);
    case "explain":
      return commands.executeCommand(PAGE_COMMAND, action.of);
    case "save-bench":
      return commands.executeCommand("fettle.saveBench", Uri.parse(action.file));
    case "begin-osd":
      return commands.executeCommand(COMMANDS["begin-osd"], action.page);
    default:
      return commands.executeCommand(COMMANDS[action.name]);
  }
}
