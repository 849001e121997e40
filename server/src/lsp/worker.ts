/** The language server in a web worker: files are asked of the editor, which alone can reach them. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { LIST_REQUEST, READ_REQUEST, type ReadResult } from "../../../shared/protocol/panel.ts";
import type { ServerFiles } from "./documents.ts";
import { pathOf, uriOf } from "./paths.ts";
import { startServer } from "./start.ts";

declare const self: DedicatedWorkerGlobalScope;

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));

const editorFiles: ServerFiles = {
  async look(path) {
    try {
      const found: ReadResult = await connection.sendRequest(READ_REQUEST, { uri: uriOf(path) });
      return { answer: found.kind === "bytes" ? textAnswer(bytesOf(found.base64)) : found, realPath: path };
    } catch (error) {
      return { answer: { kind: "unreadable", why: (error as Error).message }, realPath: path };
    }
  },
  async list() {
    try {
      return ((await connection.sendRequest(LIST_REQUEST)) as string[]).map(pathOf);
    } catch (error) {
      connection.console.warn(`The editor cannot list the scripts of its workspace: ${(error as Error).message}`);
      return [];
    }
  },
};

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

startServer(connection, editorFiles);
