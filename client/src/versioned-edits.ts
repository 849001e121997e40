/** Edits that the server made for certain versions of documents: made as one step, and only if those are still there. */
import { Range, type TextDocument, TextEdit, Uri, WorkspaceEdit, workspace } from "vscode";
import type { OsdEditResult } from "../../shared/protocol/osd-edit.ts";

export type Edits = Extract<OsdEditResult, { kind: "edits" }>;

/** How often the edits are computed again if a document has changed in the meantime, or was not open. */
export const MOST_TRIES = 3;

/**
 * The documents of an answer, if each still has the version for which the edits were made. One that was not open
 * is opened, so that its next answer knows its version; null means to ask once more.
 */
export async function documentsFor({ files }: Edits): Promise<TextDocument[] | null> {
  const documents = await Promise.all(files.map(({ file }) => workspace.openTextDocument(Uri.parse(file))));
  // Compared only once all are open: one may change while another is being opened.
  return documents.every(({ version }, index) => version === files[index]!.version) ? documents : null;
}

/** The edits of all files as one step to undo. */
export function editOf({ files }: Edits): WorkspaceEdit {
  const edit = new WorkspaceEdit();
  for (const { file, edits } of files) {
    edit.set(
      Uri.parse(file),
      edits.map(({ range, text }) => new TextEdit(rangeOf(range), text)),
    );
  }
  return edit;
}

/** A range as the editor has it. */
export function rangeOf({ start, end }: Edits["files"][number]["edits"][number]["range"]): Range {
  return new Range(start.line, start.character, end.line, end.character);
}
