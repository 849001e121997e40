/** The panel's page in its two places: the view in the side bar, and a tab of the editor. Both may be open. */
import { commands, type Disposable, Uri, ViewColumn, type Webview, type WebviewPanel, window, workspace } from "vscode";
import type { ViewName } from "../../shared/protocol/panel.ts";
import type { FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";
import { type Keyboard, keyboardOf } from "./keyboard.ts";
import { panelFolder, panelPage } from "./panel-page.ts";
import { focusGroup } from "./script-editors.ts";

export const viewId = "fettle.panel";
const tabType = "fettle.tab";
/** Whoever waits longer for the page does something else, and keeps the keyboard for it. */
const KEYBOARD_AWAITED_MS = 2_000;

/** One place in which the page is, or can be, shown. */
export interface PanelWebview {
  /** Without effect where the page is not open. */
  post(message: ToPanel): void;
  isVisible(): boolean;
  /** The page reports which of its views it shows. */
  setView(view: ViewName): void;
  /** Opens the page if it is closed or hidden, and gives it the keyboard. */
  focus(): Thenable<unknown>;
  /** Opens the page if it is closed or hidden, and leaves the keyboard where it is. */
  reveal(): Thenable<unknown>;
  readonly keyboard: Keyboard;
}

/** The views whose pictures take time, so they are made only while they are shown. */
export const COMPUTED: readonly ViewName[] = ["numbers", "bench"];

/** Where the user wants the panel to open. */
export function panelPlace(): "side-bar" | "beside" {
  return workspace.getConfiguration("fettle").get<string>("panel.place", "side-bar") === "beside"
    ? "beside"
    : "side-bar";
}

export interface PanelWebviews {
  isVisible(): boolean;
  /** The page that a command means: one that is in view, the tab before the side bar; else the one that the settings want. */
  front(): PanelWebview;
  /** The page where the settings want the panel, in view or not. */
  chosen(): PanelWebview;
  /** The views that visible pages show and that are computed only then; of two pages the second stands `besides`. */
  views(): { readonly view: ViewName; readonly besides: ViewName | undefined };
  /** Whether a page that is visible shows this view. */
  shows(view: ViewName): boolean;
  /** To every page that is open; `except` is left out. */
  post(message: ToPanel, except?: object): void;
  /** Opens the tab next to the script, which keeps the keyboard. */
  openBeside(): void;
  readonly disposables: readonly Disposable[];
}

/** `receive` takes the messages of a page; `changed` is called when a page becomes visible or hidden. */
export function panelWebviews(
  extension: Uri,
  receive: (message: FromPanel, from: PanelWebview) => void,
  changed: () => void,
): PanelWebviews {
  const options = { enableScripts: true, localResourceRoots: [panelFolder(extension)] };
  const fill = (webview: Webview, place: "side" | "tab", { page, arrived }: MadeWebview) => {
    webview.onDidReceiveMessage((message: FromPanel) => {
      if (message.kind === "ready") arrived();
      receive(message, page);
    });
    webview.options = options;
    webview.html = panelPage(webview, extension, place);
  };

  const focusSide = `${viewId}.focus`;
  const inSide = makeWebview(
    (keyboard) => commands.executeCommand(focusSide, { preserveFocus: keyboard === "leave it" }),
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
      fill(view.webview, "side", inSide);
    },
  });

  let panel: WebviewPanel | undefined;
  const inTab = makeWebview(
    async (keyboard) => openTab(keyboard),
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
        adopted.title = craft === "" ? "Panel" : visibleLine(`Panel: ${craft}`);
      },
    });
    adopted.onDidChangeViewState(changed);
    adopted.onDidDispose(() => {
      panel = undefined;
      inTab.close();
      changed();
    });
    fill(adopted.webview, "tab", inTab);
  };
  const openTab = (keyboard: "take the keyboard" | "leave it") => {
    const preserveFocus = keyboard === "leave it";
    if (panel) return panel.reveal(undefined, preserveFocus);
    adopt(window.createWebviewPanel(tabType, "Panel", { viewColumn: ViewColumn.Beside, preserveFocus }, options));
  };
  // A tab that was open when the editor was closed is restored with it.
  const restorer = window.registerWebviewPanelSerializer(tabType, {
    async deserializeWebviewPanel(restored) {
      if (panel) restored.dispose();
      else adopt(restored);
    },
  });

  // Whoever writes in the script meanwhile keeps the keyboard there.
  const elsewhere = window.onDidChangeTextEditorSelection(({ kind }) => {
    if (kind === undefined) return;
    for (const { leaveKeyboard } of [inSide, inTab]) leaveKeyboard();
  });
  const webviews = [inSide.page, inTab.page];
  const shows = (view: ViewName) => [inSide, inTab].some((each) => each.shows(view));
  return {
    isVisible: () => webviews.some((page) => page.isVisible()),
    front() {
      if (inTab.page.isVisible()) return inTab.page;
      return inSide.page.isVisible() || panelPlace() === "side-bar" ? inSide.page : inTab.page;
    },
    chosen: () => (panelPlace() === "side-bar" ? inSide.page : inTab.page),
    views() {
      const [view = "goggles", besides] = COMPUTED.filter(shows);
      return { view, besides };
    },
    shows,
    post(message, except) {
      for (const page of webviews) if (page !== except) page.post(message);
    },
    openBeside: () => openTab("leave it"),
    disposables: [provider, restorer, elsewhere, { dispose: () => panel?.dispose() }],
  };
}

interface Open {
  readonly webview: Webview;
  isVisible(): boolean;
  /** Says in a title which craft is drawn. */
  name?(craft: string): void;
}

interface MadeWebview {
  readonly page: PanelWebview;
  shows(view: ViewName): boolean;
  open(now: Open): void;
  /** The page is there: it takes the keyboard if that was meant for it. */
  arrived(): void;
  /** The page is not to take the keyboard once it is there. */
  leaveKeyboard(): void;
  close(): void;
}

/** `focusCommand` returns the editor's command that focuses the page while it is open. */
function makeWebview(
  show: (keyboard: "take the keyboard" | "leave it") => Thenable<unknown>,
  focusCommand: () => string,
): MadeWebview {
  let now: Open | undefined;
  let view: ViewName = "goggles";
  /** Until when a page takes the keyboard: the editor gave it to a page that was not there yet, and so to nobody. */
  let awaitedUntilMs = 0;
  const page: PanelWebview = {
    post(message) {
      void now?.webview.postMessage(message);
      if (message.kind === "model") now?.name?.(message.model.craft);
    },
    isVisible: () => now?.isVisible() ?? false,
    setView(shown) {
      view = shown;
    },
    focus() {
      awaitedUntilMs = page.isVisible() ? 0 : Date.now() + KEYBOARD_AWAITED_MS;
      return show("take the keyboard");
    },
    reveal() {
      awaitedUntilMs = 0;
      return show("leave it");
    },
    keyboard: keyboardOf(focusCommand, () => page.post({ kind: "keyboard" })),
  };
  return {
    page,
    shows: (name) => page.isVisible() && view === name,
    open(opened) {
      now = opened;
      view = "goggles";
    },
    arrived() {
      if (Date.now() < awaitedUntilMs) void page.keyboard.giveBack();
      awaitedUntilMs = 0;
    },
    leaveKeyboard() {
      awaitedUntilMs = 0;
    },
    close() {
      now = undefined;
    },
  };
}
