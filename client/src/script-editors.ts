/** The scripts among what the editor shows. */
import { Selection, type TextDocument, type TextEditor, TextEditorRevealType, Uri, window, workspace } from "vscode";
import type { LinePlace } from "../../shared/protocol/panel.ts";

/** The document of an editor, where that is a script. */
export function scriptOf(editor: TextEditor | undefined): TextDocument | undefined {
  return editor?.document.languageId === "fettle" ? editor.document : undefined;
}

export function isCraft(document: TextDocument): boolean {
  return /^craft[ \t]+"/m.test(document.getText());
}

/** The script in front, else one that is in view. */
export function activeScript(): TextDocument | undefined {
  return scriptOf(window.activeTextEditor) ?? window.visibleTextEditors.map(scriptOf).find((document) => document);
}

/** Shows a line of a script, selected, and turns to it. */
export async function selectLine({ file, line }: LinePlace): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const shown = window.visibleTextEditors.find((editor) => editor.document === document);
  const editor = await window.showTextDocument(document, { viewColumn: shown?.viewColumn, preserveFocus: false });
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  editor.selection = new Selection(range.start, range.end);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
