/** The addresses by which the server and the panel know the editor's documents. */
import type { Uri as EditorUri, TextDocument } from "vscode";
import { asUri, type Uri } from "../../shared/protocol/addresses.ts";
import { OTHER_SCHEME } from "../../shared/protocol/compare.ts";
import { EFFECTIVE_SCHEME } from "../../shared/protocol/effective.ts";
import { fileNameOf } from "../../shared/text/file-name.ts";

/** The address of a document, as it is sent to the server or to the panel. */
export function addressOf(uri: EditorUri): Uri {
  return asUri(uri.toString());
}

/** The name of a file, as its tab has it. */
export function nameOf({ path }: EditorUri): string {
  return fileNameOf(path);
}

/** True for the document of an address. */
export function isAt(document: TextDocument | undefined, address: string): boolean {
  return document?.uri.toString() === address;
}

/** True for a text that is only shown: the effective craft, or the other side of a comparison. It is no file, and no script of the workspace. */
export function isOnlyShown({ scheme }: EditorUri): boolean {
  return scheme === EFFECTIVE_SCHEME || scheme === OTHER_SCHEME;
}
