/** The craft in front, in the status bar: whether it can be armed, and what is found in it. */
import { type Disposable, StatusBarAlignment, window } from "vscode";
import { statusInWords } from "../../shared/draw/status-words.ts";
import type { Uri } from "../../shared/protocol/addresses.ts";
import { PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import { type CraftStatus, STATUS_REQUEST, type StatusParams } from "../../shared/protocol/status.ts";
import { visibleLine, visibleText, withoutIcons } from "../../shared/text/visible-text.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { coalesce } from "./coalesce.ts";
import { scriptOf } from "./script-editors.ts";

export interface StatusItem {
  /** Something changed that it may depend on. */
  changed(): void;
  readonly disposables: readonly Disposable[];
}

/** Between two keys less time passes. */
const PAUSE_MS = 300;

const ICONS = {
  ready: "$(check)",
  armed: "$(warning)",
  "not-ready": "$(circle-slash)",
  depends: "$(question)",
  unknown: "$(question)",
} as const;

/** A tick stands beside no error. */
function iconOf(state: keyof typeof ICONS, errors: number): string {
  return state === "ready" && errors > 0 ? "$(error)" : ICONS[state];
}

/** Shown while a script is in front, and hidden without one. `craftOf` gives the craft that a layer is drawn as part of. */
export function statusItem(ask: Ask, craftOf: () => Uri | undefined, log: (message: string) => void): StatusItem {
  const item = window.createStatusBarItem("fettle.status", StatusBarAlignment.Left, 40);
  item.name = "Fettle: Craft";
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const update = coalesce(async () => {
    const document = scriptOf(window.activeTextEditor);
    if (!document) return item.hide();
    const params: StatusParams = { uri: addressOf(document.uri), craft: craftOf() };
    try {
      const status = await ask<CraftStatus | null>(STATUS_REQUEST, params);
      // Another script may be in front by now: then it is asked for by itself.
      if (scriptOf(window.activeTextEditor) !== document) return;
      if (status) show(status);
      else item.hide();
    } catch (error) {
      item.hide();
      log(`The status of ${params.uri} could not be had: ${error}`);
    }
  });
  const show = (status: CraftStatus) => {
    const { text: words, hover } = statusInWords(status);
    const text = withoutIcons(visibleLine(words));
    item.text = status.arming ? `${iconOf(status.arming.state, status.findings.errors)} ${text}` : text;
    const isDialect = status.kind === "dialect";
    item.command = isDialect
      ? { command: PAGE_COMMAND, title: "Explain Dialects", arguments: ["word/dialect"] }
      : { command: "fettle.showSwitches", title: "Show the Switches" };
    item.tooltip = visibleText(
      [...hover, isDialect ? "Click: explain dialects." : "Click: show its switches."].join("\n"),
    );
    item.accessibilityInformation = { label: visibleLine(`${words}. ${hover[0] ?? ""}`), role: "button" };
    item.show();
  };
  // With the panel's own tab in front the script beside it is meant as before.
  const followed = window.onDidChangeActiveTextEditor((editor) => {
    if (editor || window.visibleTextEditors.length === 0) update();
  });
  update();
  return {
    changed() {
      clearTimeout(waiting);
      waiting = setTimeout(update, PAUSE_MS);
    },
    disposables: [item, followed, { dispose: () => clearTimeout(waiting) }],
  };
}
