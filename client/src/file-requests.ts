/** Reads and lists scripts for a server that has no disk of its own: whatever the editor can open. */
import { FileSystemError, Uri, workspace } from "vscode";
import type { ReadResult } from "../../shared/protocol/panel.ts";

/** The bytes of a file as the workspace's own file system gives them, in base64. */
export async function readForServer(uri: string): Promise<ReadResult> {
  try {
    return { kind: "bytes", base64: toBase64(await workspace.fs.readFile(Uri.parse(uri))) };
  } catch (error) {
    if (error instanceof FileSystemError && error.code === "FileNotFound") return { kind: "missing" };
    return { kind: "unreadable", why: error instanceof Error ? error.message : String(error) };
  }
}

/** The URIs of every script and every file of own words in the workspace, as the editor's own exclusions leave them. */
export async function listForServer(): Promise<string[]> {
  const files = await workspace.findFiles("**/*.{fettle,catalogue.json,aliases.json}");
  return files.map((file) => file.toString());
}

/** In pieces, since a call takes only so many arguments. */
function toBase64(bytes: Uint8Array): string {
  const pieceBytes = 0x8000;
  let text = "";
  for (let at = 0; at < bytes.length; at += pieceBytes)
    text += String.fromCharCode(...bytes.subarray(at, at + pieceBytes));
  return btoa(text);
}
