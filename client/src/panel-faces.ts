/** The panel's page in its two places: the view in the side bar, and a tab of the editor. Both may be open. */
import { commands, type Disposable, Uri, ViewColumn, type Webview, type WebviewPanel, window } from "vscode";
import type { FromPanel, ToPanel, ViewName } from "../../shared/protocol/panel.ts";
import { type Keyboard, keyboardOf } from "./keyboard.ts";
import { panelFolder, panelPage } from "./panel-page.ts";
import { focusGroup } from "./script-editors.ts";

export const viewId = "fettle.panel";
const tabType = "fettle.tab";

/** One place in which the page is, or can be, shown. */
export interface Face {
  /** Without effect where the page is not open. */
  post(message: ToPanel): void;
  isVisible(): boolean;
  /** The page has told which of its views it shows. */
  looksAt(view: ViewName): void;
  /** Opens the page where it is closed or hidden, and gives it the keyboard. */
  focus(): Thenable<unknown>;
  readonly keyboard: Keyboard;
}

export interface PanelFaces {
  isVisible(): boolean;
  /** The page that a command means: the tab where it is in view, else the side bar. */
  front(): Face;
  /** What is looked at: the numbers, where any page in view shows them. */
  view(): ViewName;
  /** To every page that is open. */
  post(message: ToPanel): void;
  /** Opens the tab next to the script, which keeps the keyboard. */
  openBeside(): void;
  readonly disposables: readonly Disposable[];
}

/** `take` takes what a page tells; `changed` is called when a page has come into view, or gone. */
export function panelFaces(
  extension: Uri,
  take: (message: FromPanel, from: Face) => void,
  changed: () => void,
): PanelFaces {
  const options = { enableScripts: true, localResourceRoots: [panelFolder(extension)] };
  const fill = (webview: Webview, place: "side" | "tab", face: Face) => {
    webview.onDidReceiveMessage((message: FromPanel) => take(message, face));
    webview.options = options;
    webview.html = panelPage(webview, extension, place);
  };

  const focusSide = `${viewId}.focus`;
  const inSide = makeFace(
    () => commands.executeCommand(focusSide),
    () => focusSide,
  );
  const provider = window.registerWebviewViewProvider(viewId, {
    resolveWebviewView(view) {
      inSide.open({ webview: view.webview, isVisible: () => view.visible });
      view.onDidChangeVisibility(changed);
      view.onDidDispose(() => {
        inSide.close();
        changed();
      });
      fill(view.webview, "side", inSide.face);
    },
  });

  let panel: WebviewPanel | undefined;
  const inTab = makeFace(
    async () => openTab("take the keyboard"),
    () => focusGroup(panel?.viewColumn),
  );
  const adopt = (adopted: WebviewPanel) => {
    panel = adopted;
    panel.iconPath = {
      light: Uri.joinPath(extension, "client/icons/script-light.svg"),
      dark: Uri.joinPath(extension, "client/icons/script-dark.svg"),
    };
    inTab.open({
      webview: adopted.webview,
      isVisible: () => adopted.visible,
      name: (craft) => {
        adopted.title = craft === "" ? "Panel" : `Panel: ${craft}`;
      },
    });
    adopted.onDidChangeViewState(changed);
    adopted.onDidDispose(() => {
      panel = undefined;
      inTab.close();
      changed();
    });
    fill(adopted.webview, "tab", inTab.face);
  };
  const openTab = (keyboard: "take the keyboard" | "leave it") => {
    const preserveFocus = keyboard === "leave it";
    if (panel) return panel.reveal(undefined, preserveFocus);
    adopt(window.createWebviewPanel(tabType, "Panel", { viewColumn: ViewColumn.Beside, preserveFocus }, options));
  };
  // A tab that was open when the editor was closed comes back with it.
  const restorer = window.registerWebviewPanelSerializer(tabType, {
    async deserializeWebviewPanel(restored) {
      if (panel) restored.dispose();
      else adopt(restored);
    },
  });

  const faces = [inSide.face, inTab.face];
  return {
    isVisible: () => faces.some((face) => face.isVisible()),
    front: () => (inTab.face.isVisible() ? inTab.face : inSide.face),
    view: () => ([inSide, inTab].some(({ showsNumbers }) => showsNumbers()) ? "numbers" : "goggles"),
    post(message) {
      for (const face of faces) face.post(message);
    },
    openBeside: () => openTab("leave it"),
    disposables: [provider, restorer, { dispose: () => panel?.dispose() }],
  };
}

interface Open {
  readonly webview: Webview;
  isVisible(): boolean;
  /** Says in a title which craft is drawn. */
  name?(craft: string): void;
}

interface MadeFace {
  readonly face: Face;
  showsNumbers(): boolean;
  open(now: Open): void;
  close(): void;
}

/** `focusCommand` gives the editor's command that lets the page, where it is open, have the keyboard. */
function makeFace(focus: Face["focus"], focusCommand: () => string): MadeFace {
  let now: Open | undefined;
  let view: ViewName = "goggles";
  const face: Face = {
    post(message) {
      void now?.webview.postMessage(message);
      if (message.kind === "model") now?.name?.(message.model.craft);
    },
    isVisible: () => now?.isVisible() ?? false,
    looksAt(shown) {
      view = shown;
    },
    focus,
    keyboard: keyboardOf(focusCommand, () => face.post({ kind: "keyboard" })),
  };
  return {
    face,
    showsNumbers: () => face.isVisible() && view === "numbers",
    open(opened) {
      now = opened;
      view = "goggles";
    },
    close() {
      now = undefined;
    },
  };
}
