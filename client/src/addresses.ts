/** The addresses by which the server and the panel know the editor's documents. */
import type { Uri as EditorUri, TextDocument } from "vscode";
import { asUri, type Uri } from "../../shared/protocol/addresses.ts";

/** The address of a document, as it is sent to the server or to the panel. */
export function addressOf(uri: EditorUri): Uri {
  return asUri(uri.toString());
}

/** True for the document of an address. */
export function isAt(document: TextDocument | undefined, address: string): boolean {
  return document?.uri.toString() === address;
}
