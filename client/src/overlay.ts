/** The command that shows both sides of a comparison on the panel. */
import { commands, type Disposable } from "vscode";
import { OVERLAY_COMMAND, type ShowAgainst } from "../../shared/protocol/panel.ts";
import type { PanelHost } from "./panel-host.ts";

/** It is not in the palette: by itself there is nothing to compare with. */
export function overlayCommand(panel: Pick<PanelHost, "showAgainst" | "endAgainst">): Disposable {
  return commands.registerCommand(OVERLAY_COMMAND, (shown?: ShowAgainst) =>
    shown ? panel.showAgainst(shown) : panel.endAgainst(),
  );
}
