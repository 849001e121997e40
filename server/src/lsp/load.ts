/** Which files an answer waits for. */
import type { FilePath } from "../../../shared/model/files.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Documents } from "./documents.ts";

/** What every request about a document has. */
export interface Asked {
  readonly textDocument: { readonly uri: Uri };
}

/** The path of the document, once all files are loaded that an answer about it may need. */
export function loadFor(documents: Documents, { textDocument: { uri } }: Asked): Promise<FilePath> {
  return documents.isCraft(uri) ? documents.load(uri) : documents.loadAll(uri);
}
