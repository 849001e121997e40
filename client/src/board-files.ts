/** A board's text in a file: UTF-8 where it is that, else Latin-1, so that every byte comes back. */
import { type Uri, workspace } from "vscode";
import { tellWarning } from "./shown-window.ts";

/** The text of a file, as an editor has it or as it is saved; undefined, and a message, where it cannot be read. */
export async function readBoardFile(uri: Uri): Promise<string | undefined> {
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  if (open?.isDirty) return open.getText();
  try {
    return boardTextOf(await workspace.fs.readFile(uri)).text;
  } catch (error) {
    const why = error instanceof Error ? error.message : error;
    void tellWarning(`${workspace.asRelativePath(uri, false)} could not be read: ${why}`);
    return undefined;
  }
}

export type BoardEncoding = "utf-8" | "latin-1";

/** Any bytes as text; of Latin-1 each byte is a character of its own. */
export function boardTextOf(bytes: Uint8Array): { readonly text: string; readonly encoding: BoardEncoding } {
  try {
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    return { text, encoding: "utf-8" };
  } catch {
    return { text: Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""), encoding: "latin-1" };
  }
}

/** The bytes of a text; null for one that Latin-1 does not have. */
export function boardBytesOf(text: string, encoding: BoardEncoding): Uint8Array | null {
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  if (/[^\u0000-\u00ff]/.test(text)) return null;
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}
