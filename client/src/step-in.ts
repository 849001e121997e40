/** Undoes or redoes the last step of a document from a page that has the keyboard, and gets it back. */
import { type TextDocument, window } from "vscode";
import type { Keyboard } from "./keyboard.ts";
import { columnFor, focusGroup } from "./script-editors.ts";

/** The document is in front for as long as it takes; then what was there before is in front again. */
export async function stepIn(way: "undo" | "redo", document: TextDocument, keyboard: Keyboard): Promise<void> {
  const viewColumn = columnFor(document);
  const before = window.visibleTextEditors.find((editor) => editor.viewColumn === viewColumn);
  if (before?.document !== document)
    await window.showTextDocument(document, { viewColumn, preserveFocus: true, preview: false });
  // Undo and redo of the editor apply to what has the keyboard focus.
  await keyboard.giveBack([focusGroup(viewColumn), way]);
  if (before && before.document !== document)
    await window.showTextDocument(before.document, { viewColumn, preserveFocus: true });
}
