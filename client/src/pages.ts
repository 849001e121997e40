/** The pages of names: found in a list, and shown in one tab that every way to them shares. */
import { type Disposable, Uri, window } from "vscode";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { nameAt, pickName } from "./name-picker.ts";
import { followPageLinks } from "./page-links.ts";
import { pageTab } from "./page-tab.ts";
import { scriptOf } from "./script-editors.ts";

export interface Pages {
  /**
   * Shows the page of a name. From a menu, which gives a document's address, the one under the cursor; without any
   * name, that of the one that the pilot picks.
   */
  show(argument?: unknown): Promise<void>;
  /** What the pages are made of may have changed. */
  refresh(): void;
  readonly disposables: readonly Disposable[];
}

/** The pages of the extension in this folder. */
export function pagesOf(extension: Uri, ask: Ask): Pages {
  const tab = pageTab(extension, ask);
  return {
    async show(argument) {
      const at = cursorAt();
      const name =
        typeof argument === "string" ? argument : argument instanceof Uri ? await nameAt(ask, at) : undefined;
      const chosen = name ?? (await pickName(ask, at));
      if (chosen !== undefined) tab.show(chosen);
    },
    refresh: tab.refresh,
    disposables: [...tab.disposables, followPageLinks(tab.show)],
  };
}

function cursorAt() {
  const editor = window.activeTextEditor;
  const script = scriptOf(editor);
  if (!editor || !script) return undefined;
  const { line, character } = editor.selection.active;
  return { uri: addressOf(script.uri), line, character };
}
