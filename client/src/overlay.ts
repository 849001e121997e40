/** Both sides of a comparison on the panel: the pictures laid over each other, and the switches before and after. */
import { commands, type Disposable } from "vscode";
import type { Uri } from "../../shared/protocol/addresses.ts";
import type { OtherSide } from "../../shared/protocol/compare.ts";
import type { PanelHost } from "./panel-host.ts";

/** The argument of the command: the script that is drawn, and what is laid over it. */
export interface ShowAgainst {
  readonly mine: Uri;
  readonly other: OtherSide;
}

/** Called from comparisons, which say what is meant; without an argument it ends what is shown. */
export const OVERLAY_COMMAND = "fettle.overlay";

/** The command. It is not in the palette: by itself there is nothing to compare with. */
export function overlayCommand(panel: Pick<PanelHost, "showAgainst" | "endAgainst">): Disposable {
  return commands.registerCommand(OVERLAY_COMMAND, (shown?: ShowAgainst) =>
    shown ? panel.showAgainst(shown) : panel.endAgainst(),
  );
}
