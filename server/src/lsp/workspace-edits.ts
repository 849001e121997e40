/** Edits of files as the protocol has them: with the versions that they were made from, where the client can take them. */
import type { TextEdit, WorkspaceEdit } from "vscode-languageserver-types";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Documents } from "./documents.ts";

/** An edit as the core gives it. */
export interface FileEdit {
  readonly file: FilePath;
  readonly range: Range;
  readonly text: string;
}

/** In what form the client takes edits. */
export type EditForm = "versioned" | "plain";

/** A file that is moved once the edits are made, which are those of its text from before; nothing is overwritten. */
export function withMove({ documentChanges = [] }: WorkspaceEdit, oldUri: string, newUri: string): WorkspaceEdit {
  return { documentChanges: [...documentChanges, { kind: "rename", oldUri, newUri, options: { overwrite: false } }] };
}

/** The edits, for the documents as they are at this moment: they must have been made from the same. */
export function toWorkspaceEdit(edits: readonly FileEdit[], documents: Documents, form: EditForm): WorkspaceEdit {
  const byFile = new Map<FilePath, TextEdit[]>();
  for (const { file, range, text } of edits) {
    const ofFile = byFile.get(file) ?? [];
    byFile.set(file, ofFile);
    ofFile.push({ range, newText: text });
  }
  const files = [...byFile].map(([file, ofFile]) => ({ uri: documents.uriOf(file), edits: ofFile }));
  if (form === "plain") return { changes: Object.fromEntries(files.map((each) => [each.uri, each.edits])) };
  return {
    documentChanges: files.map(({ uri, edits: ofFile }) => ({
      textDocument: { uri, version: documents.version(uri) },
      edits: ofFile,
    })),
  };
}
