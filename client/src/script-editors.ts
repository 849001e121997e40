/** The scripts among what the editor shows. */
import {
  Selection,
  TabInputText,
  TabInputWebview,
  type TextDocument,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import type { LinePlace } from "../../shared/protocol/panel.ts";
import { isOnlyShown } from "./addresses.ts";
import { GIT_SCHEME } from "./past-documents.ts";

/** The document of an editor, where that is a script of now; what is only shown is none. */
export function scriptOf(editor: TextEditor | undefined): TextDocument | undefined {
  const document = editor?.document;
  if (document?.languageId !== "fettle" || isOnlyShown(document.uri)) return undefined;
  return document.uri.scheme === GIT_SCHEME ? undefined : document;
}

/** True for a script whose header says so. */
export function isCraft(document: TextDocument): boolean {
  return /^craft[ \t]+"/m.test(document.getText());
}

/** The active script, else a visible one. */
export function activeScript(): TextDocument | undefined {
  return scriptOf(window.activeTextEditor) ?? window.visibleTextEditors.map(scriptOf).find((document) => document);
}

/** The editor that shows a script, the active one before others. */
export function editorOf(script: TextDocument): TextEditor | undefined {
  return [window.activeTextEditor, ...window.visibleTextEditors].find((editor) => editor?.document === script);
}

/** The best column for a script: its present one, else any that does not cover the panel's own tab. */
export function columnFor(document: TextDocument): ViewColumn {
  const shown = editorOf(document)?.viewColumn;
  if (shown !== undefined) return shown;
  const groups = window.tabGroups.all;
  const address = document.uri.toString();
  const holds = groups.find(({ tabs }) =>
    tabs.some(({ input }) => input instanceof TabInputText && input.uri.toString() === address),
  );
  const isFree = ({ activeTab }: (typeof groups)[number]) => !(activeTab?.input instanceof TabInputWebview);
  const { activeTabGroup } = window.tabGroups;
  const free = isFree(activeTabGroup) ? activeTabGroup : groups.find(isFree);
  return (holds ?? free)?.viewColumn ?? ViewColumn.Beside;
}

const GROUPS = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth"];

/** The editor's command that focuses a column; the active column if there is no such column. */
export function focusGroup(column: ViewColumn | undefined): string {
  const which = GROUPS[(column ?? 0) - 1];
  return `workbench.action.focus${which ?? "Active"}EditorGroup`;
}

/** Shows a line of a script, selected, and focuses its editor. */
export async function selectLine({ file, line }: LinePlace): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const editor = await window.showTextDocument(document, { viewColumn: columnFor(document), preserveFocus: false });
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  editor.selection = new Selection(range.start, range.end);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
