/** Which files an answer waits for. */
import type { Documents } from "./documents.ts";

/** What every request about a document has. */
export interface Asked {
  readonly textDocument: { readonly uri: string };
}

/** The path of the document asked about, once all is read that its answer may need. */
export function loadFor(documents: Documents, { textDocument: { uri } }: Asked): Promise<string> {
  return documents.isCraft(uri) ? documents.load(uri) : documents.loadAll(uri);
}
