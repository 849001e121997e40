/** Reads and lists scripts for a server that has no disk of its own: whatever the editor can open. */
import { CancellationTokenSource, FileSystemError, Uri, workspace } from "vscode";
import type { ListResult, ReadParams, ReadResult } from "../../shared/protocol/requests.ts";
import { addressOf } from "./addresses.ts";

/** A script is read up to this size, and what is larger is not sent. */
const MOST_BYTES = 1024 * 1024;

/** The bytes of a file as the workspace's own file system gives them, in base64. */
export async function readForServer({ uri }: ReadParams): Promise<ReadResult> {
  try {
    const file = Uri.parse(uri);
    const { size } = await workspace.fs.stat(file);
    if (size > MOST_BYTES)
      return {
        kind: "unreadable",
        why: `it is ${(size / 1024 / 1024).toFixed(1)} MB, and a script is read up to 1 MB: is it a script at all?`,
      };
    return { kind: "bytes", base64: toBase64(await workspace.fs.readFile(file)) };
  } catch (error) {
    if (error instanceof FileSystemError && error.code === "FileNotFound") return { kind: "missing" };
    return { kind: "unreadable", why: error instanceof Error ? error.message : String(error) };
  }
}

/** Bounds of a search: far more than a workspace of scripts has. */
const MOST_FILES = 10_000;
const MOST_MS = 2000;

/**
 * Every script and every file of own words in the workspace, as the editor's own exclusions leave
 * them, outside of hidden folders.
 */
export async function listForServer(): Promise<ListResult> {
  const search = new CancellationTokenSource();
  const timer = setTimeout(() => search.cancel(), MOST_MS);
  const isOurs = "**/*.{fettle,catalogue.json,aliases.json}";
  const found = await workspace.findFiles(isOurs, "**/{.*,node_modules}/**", MOST_FILES + 1, search.token);
  clearTimeout(timer);
  const cut = search.token.isCancellationRequested || found.length > MOST_FILES;
  search.dispose();
  return { uris: found.slice(0, MOST_FILES).map(addressOf), cut };
}

/** In pieces, since the number of arguments of a call is limited. */
function toBase64(bytes: Uint8Array): string {
  const pieceBytes = 0x8000;
  let text = "";
  for (let at = 0; at < bytes.length; at += pieceBytes)
    text += String.fromCharCode(...bytes.subarray(at, at + pieceBytes));
  return btoa(text);
}
