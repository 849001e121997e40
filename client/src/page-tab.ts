/** The tab that shows the pages of names: one for all of them, with a history of its own, which outlives the editor. */
import { type Disposable, Uri, ViewColumn, type WebviewPanel, window } from "vscode";
import {
  type FromPage,
  NAMES_REQUEST,
  type NamesResult,
  PAGE_REQUEST,
  type PageView,
  type ToPage,
} from "../../shared/protocol/pages.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";
import type { Ask } from "./ask.ts";
import { panelFolder, panelPage } from "./panel-page.ts";
import { activeScript, editorOf } from "./script-editors.ts";

const tabType = "fettle.page";

export interface PageTab {
  /** Shows the page of a name, in the tab that is there or in a new one next to the script, or to the column `from`. */
  show(name: string, from?: ViewColumn): void;
  refresh(): void;
  readonly disposables: readonly Disposable[];
}

/** The tab of the extension in this folder. */
export function pageTab(extension: Uri, ask: Ask): PageTab {
  const options = { enableScripts: true, localResourceRoots: [panelFolder(extension)] };
  let tab: WebviewPanel | undefined;
  /** The page to go to once the tab has said that it is there. */
  let pending: string | undefined;
  let isReady = false;
  const post = (message: ToPage) => void tab?.webview.postMessage(message);

  const receive = async (message: FromPage) => {
    switch (message.kind) {
      case "ready":
        isReady = true;
        if (pending !== undefined) post({ kind: "go", name: pending });
        pending = undefined;
        return;
      case "ask": {
        const page = await ask<PageView | null>(PAGE_REQUEST, { name: message.name }).catch(() => null);
        if (tab && page) tab.title = visibleLine(`Explain: ${page.title}`);
        return post({ kind: "page", asked: message.name, page });
      }
      case "search": {
        const { names } = await ask<NamesResult>(NAMES_REQUEST, { typed: message.typed });
        return post({ kind: "names", typed: message.typed, names });
      }
    }
  };
  const adopt = (adopted: WebviewPanel) => {
    tab = adopted;
    isReady = false;
    adopted.iconPath = {
      light: Uri.joinPath(extension, "client/icons/script-light.svg"),
      dark: Uri.joinPath(extension, "client/icons/script-dark.svg"),
    };
    adopted.webview.onDidReceiveMessage((message: FromPage) => receive(message));
    // A hidden page is gone: it says anew that it is there, and remembers where it was.
    adopted.onDidChangeViewState(() => {
      if (!adopted.visible) isReady = false;
    });
    adopted.onDidDispose(() => {
      if (tab === adopted) tab = undefined;
    });
    adopted.webview.options = options;
    adopted.webview.html = panelPage(adopted.webview, extension, "page");
  };
  const restorer = window.registerWebviewPanelSerializer(tabType, {
    async deserializeWebviewPanel(restored) {
      if (tab) restored.dispose();
      else adopt(restored);
    },
  });

  return {
    show(name, from = scriptColumn()) {
      if (tab) tab.reveal(undefined, false);
      else
        adopt(
          window.createWebviewPanel(
            tabType,
            "Explain",
            { viewColumn: from === undefined ? ViewColumn.Beside : from + 1, preserveFocus: false },
            { ...options, enableFindWidget: true },
          ),
        );
      if (isReady) post({ kind: "go", name });
      else pending = name;
    },
    refresh: () => post({ kind: "stale" }),
    disposables: [restorer, { dispose: () => tab?.dispose() }],
  };
}

/** The column of the script, also where the panel's own tab next to it has the keyboard. */
function scriptColumn(): ViewColumn | undefined {
  const script = activeScript();
  return script && editorOf(script)?.viewColumn;
}
