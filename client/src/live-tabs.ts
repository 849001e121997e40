/**
 * Tabs whose page shows an answer of the server that stays live: of a comparison, of the fleet. Several may be open, one
 * for each thing that they are about; each outlives the editor.
 */
import { type Disposable, Uri, ViewColumn, type WebviewPanel, window } from "vscode";
import { visibleLine } from "../../shared/text/visible-text.ts";
import { coalesce } from "./coalesce.ts";
import { type Keyboard, keyboardOf } from "./keyboard.ts";
import { type PagePlace, panelFolder, panelPage } from "./panel-page.ts";
import { activeScript, editorOf, focusGroup } from "./script-editors.ts";

/** A tab that is open. */
export interface LiveTab<About, To> {
  readonly about: About;
  /** Without effect where the page is not open. */
  post(message: To): void;
  /** Names the tab. */
  name(title: string): void;
  /** Asks again, and shows the answer. */
  refresh(): void;
  readonly keyboard: Keyboard;
}

export interface LiveTabs<About> {
  /** Shows the tab that is about this, or opens it beside the script. */
  open(about: About): void;
  /** What the answers rest on may have changed. */
  changed(): void;
  readonly disposables: readonly Disposable[];
}

export interface LiveTabsOf<About, To, From> {
  /** The type of the webview, as the manifest wakes the extension for it. */
  readonly type: string;
  readonly place: PagePlace;
  readonly title: string;
  readonly extension: Uri;
  /** Asks the server for what the tab shows, and posts it; called for one tab never twice at the same time. */
  show(tab: LiveTab<About, To>): Promise<void>;
  receive(message: From, tab: LiveTab<About, To>): Promise<void> | void;
}

/** Nobody reads a report while typing: it is asked for when the keys pause. */
const PAUSE_MS = 200;
/** Whoever waits longer for the page does something else, and keeps the keyboard for it. */
const KEYBOARD_AWAITED_MS = 2_000;

type Messages = { readonly kind: string; readonly has?: boolean };

/** The tabs of a kind. Every page is told what it is about, keeps that in its state, and says `ready` once it is there. */
export function liveTabs<About, To, From extends Messages>(kind: LiveTabsOf<About, To, From>): LiveTabs<About> {
  const { type, place, extension } = kind;
  const pageOptions = { enableScripts: true, localResourceRoots: [panelFolder(extension)] };
  interface Open {
    readonly panel: WebviewPanel;
    readonly tab: LiveTab<About, To>;
  }
  const open = new Map<string, Open>();
  /** The tab that takes the keyboard once its page is there, and until when: before that the editor gives it to nobody. */
  let awaited: { readonly panel: WebviewPanel; readonly untilMs: number } | undefined;
  const keyOf = (about: About) => JSON.stringify(about);
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const adopt = (panel: WebviewPanel, about: About) => {
    const post = (message: To | { readonly kind: "about" | "keyboard"; readonly about?: About }) =>
      void panel.webview.postMessage(message);
    const keyboard = keyboardOf(
      () => focusGroup(panel.viewColumn),
      () => post({ kind: "keyboard" }),
    );
    const tab: LiveTab<About, To> = {
      about,
      post,
      keyboard,
      name(title) {
        panel.title = visibleLine(title);
      },
      refresh: coalesce(() => kind.show(tab)),
    };
    open.set(keyOf(about), { panel, tab });
    panel.iconPath = {
      light: Uri.joinPath(extension, "client/icons/script-light.svg"),
      dark: Uri.joinPath(extension, "client/icons/script-dark.svg"),
    };
    panel.webview.onDidReceiveMessage((message: From) => {
      if (message.kind === "keyboard") return keyboard.answered(message.has === true);
      if (message.kind === "ready") {
        post({ kind: "about", about });
        if (awaited?.panel === panel && panel.active && Date.now() < awaited.untilMs) void keyboard.giveBack();
        if (awaited?.panel === panel) awaited = undefined;
      }
      return kind.receive(message, tab);
    });
    panel.onDidDispose(() => void open.delete(keyOf(about)));
    panel.webview.options = pageOptions;
    panel.webview.html = panelPage(panel.webview, extension, place);
  };
  const restorer = window.registerWebviewPanelSerializer(type, {
    async deserializeWebviewPanel(restored, state: { readonly about?: About } | undefined) {
      // A page that was closed before it knew what it is about has nothing to show.
      if (!state?.about || open.has(keyOf(state.about))) restored.dispose();
      else adopt(restored, state.about);
    },
  });
  const awaitPage = (panel: WebviewPanel) => {
    awaited = { panel, untilMs: Date.now() + KEYBOARD_AWAITED_MS };
  };
  // Whoever writes in the script meanwhile keeps the keyboard there.
  const elsewhere = window.onDidChangeTextEditorSelection(({ kind }) => {
    if (kind !== undefined) awaited = undefined;
  });
  return {
    open(about) {
      const there = open.get(keyOf(about));
      if (there) {
        if (!there.panel.visible) awaitPage(there.panel);
        return there.panel.reveal(undefined, false);
      }
      const [another] = open.values();
      const viewColumn = another?.panel.viewColumn ?? columnBeside();
      const options = { ...pageOptions, enableFindWidget: true };
      const panel = window.createWebviewPanel(type, kind.title, { viewColumn, preserveFocus: false }, options);
      adopt(panel, about);
      awaitPage(panel);
    },
    changed() {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        for (const { panel, tab } of open.values()) if (panel.visible) tab.refresh();
      }, PAUSE_MS);
    },
    disposables: [
      restorer,
      elsewhere,
      {
        dispose() {
          clearTimeout(waiting);
          for (const { panel } of open.values()) panel.dispose();
        },
      },
    ],
  };
}

/** The column next to the script, also where a tab next to it has the keyboard. */
function columnBeside(): ViewColumn {
  const script = activeScript();
  const column = script && editorOf(script)?.viewColumn;
  return column === undefined ? ViewColumn.Beside : column + 1;
}
