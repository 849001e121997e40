/** The disk as the language server asks for it. */

import { isWordsFile } from "../../../shared/services/own-words.ts";
import type { ServerFiles } from "../lsp/documents.ts";
import { listFiles, readScriptFile, realPathOf } from "./disk.ts";

export const diskFiles: ServerFiles = {
  async look(path) {
    // A document that is no file (an unsaved one, a comparison) has an address that no disk knows.
    if (/^[a-z][a-z0-9+.-]+:/i.test(path)) return { answer: { kind: "missing" }, realPath: path };
    return { answer: readScriptFile(path), realPath: realPathOf(path) };
  },
  list: async (folders) => folders.flatMap((folder) => listFiles(folder, isWanted)),
};

function isWanted(name: string): boolean {
  return name.endsWith(".fettle") || isWordsFile(name);
}
