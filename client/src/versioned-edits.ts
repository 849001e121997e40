/** Edits that the server made for certain versions of documents: made as one step, and only if those are still there. */
import { Range, type TextDocument, TextEdit, Uri, WorkspaceEdit, workspace } from "vscode";
import type { EditedFiles, Refused } from "../../shared/protocol/file-edits.ts";

export type Edits = EditedFiles;

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

/** The edits of all files, and the files that are new, as one step to undo. */
export function editOf({ files, creates = [] }: Edits): WorkspaceEdit {
  const edit = new WorkspaceEdit();
  for (const { file, text } of creates) edit.createFile(Uri.parse(file), { contents: new TextEncoder().encode(text) });
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

/** What was written, with the versions that the documents have since. */
export interface Made {
  readonly kind: "made";
  readonly documents: readonly { readonly document: TextDocument; readonly version: number }[];
}

/** Asks for edits and makes them; asks again where a document has changed in the meantime. */
export async function makeEdits(ask: () => Promise<EditedFiles | Refused>): Promise<Made | Refused> {
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const answer = await ask();
    if (answer.kind === "refused") return answer;
    const documents = await documentsFor(answer);
    if (!documents) continue;
    if (await workspace.applyEdit(editOf(answer)))
      return { kind: "made", documents: documents.map((document) => ({ document, version: document.version })) };
    const message = "The editor did not take the change, so nothing was written: is the script read-only?";
    return { kind: "refused", message };
  }
  return {
    kind: "refused",
    message: "The script kept changing while the change was worked out, so nothing was written: try again.",
  };
}
