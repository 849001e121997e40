/** The disk as the language server asks for it. */
import { isScriptFile, isWordsFile } from "../../../shared/model/file-names.ts";
import type { ServerFiles } from "../lsp/documents.ts";
import { listFiles, readScriptFile, realPathOf } from "./disk.ts";

/** Paths are looked at as they are; what is no file of the disk is missing. */
export const diskFiles: ServerFiles = {
  async read(path) {
    // A document that is no file (an unsaved one, a comparison) has an address that no disk knows.
    if (/^[a-z][a-z0-9+.-]+:/i.test(path)) return { answer: { kind: "missing" }, realPath: path };
    return { answer: readScriptFile(path), realPath: realPathOf(path) };
  },
  list: async (folders) => folders.flatMap((folder) => listFiles(folder, isWanted)),
};

function isWanted(name: string): boolean {
  return isScriptFile(name) || isWordsFile(name);
}
