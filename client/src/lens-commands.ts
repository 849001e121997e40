/** What the words above a line lead to. */
import { commands, Uri } from "vscode";
import type { FollowLens } from "../../shared/protocol/lenses.ts";
import { addressOf } from "./addresses.ts";
import type { EffectiveCrafts } from "./effective.ts";
import type { PanelHost } from "./panel-host.ts";
import { pickCraft } from "./pick-craft.ts";
import { activeScript, selectLine } from "./script-editors.ts";
import { tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly panel: Pick<PanelHost, "show" | "showPositions" | "drawnCraft">;
  readonly effective: Pick<EffectiveCrafts, "show">;
  readonly scripts: Pick<WorkspaceScripts, "list">;
}

export interface LensCommands {
  follow(lens: FollowLens): Promise<unknown>;
  /** Lists the craft that use a script, by default the one in front, and opens the chosen one. */
  showUsers(uri?: Uri): Promise<void>;
  /** Shows the effective craft of a script: by default of the one in front, else of one that is asked for. */
  showEffective(uri?: Uri): Promise<void>;
}

/** The commands behind lenses, which the palette and the tree have too. */
export function lensCommands({ panel, effective, scripts }: Parts): LensCommands {
  const showUsers = async (uri = activeScript()?.uri) => {
    const tree = await scripts.list();
    const script = uri && tree?.files.find(({ file }) => file === uri.toString());
    if (!script || script.users.length === 0) {
      const why =
        script?.kind === "craft"
          ? "A craft is used by no other file: layers and handsets are."
          : "No craft uses this file yet: name it in one with “use”.";
      void tellInformation(script ? why : "Open a layer or a handset first.");
      return;
    }
    const craft = await pickCraft(tree, `Craft that use “${script.name}”`, script.users);
    if (craft) await selectLine({ file: craft.toString(), line: 0 });
  };
  const showEffective = async (uri = activeScript()?.uri) => {
    const shown = uri ?? (await pickCraft(await scripts.list(), "Show the effective craft"));
    if (shown) await effective.show(addressOf(shown), panel.drawnCraft());
  };
  return {
    showUsers,
    showEffective,
    follow({ uri, action }) {
      switch (action.kind) {
        case "positions":
          return panel.showPositions({ uri, positions: action.positions });
        case "view":
          return panel.show(action.view, uri);
        case "users":
          return showUsers(Uri.parse(uri));
        case "effective":
          return showEffective(Uri.parse(uri));
        case "review":
          return Promise.resolve(commands.executeCommand("fettle.review", { uri }));
      }
    },
  };
}
