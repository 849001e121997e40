/**
 * The language server in a web worker: files are requested from the editor, since only it can access them.
 * Its bundle is the one that ships the server: the extension on Node takes what is exported here from it.
 */
import type { Connection, Message } from "vscode-languageserver";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { LIST_REQUEST, type ListResult, READ_REQUEST, type ReadResult } from "../../../shared/protocol/requests.ts";
import type { ServerFiles } from "./documents.ts";
import { pathOf, uriOf } from "./paths.ts";
import { startServer } from "./start.ts";
import { rehearse, warmUpOnce } from "./warm-up.ts";
import { valuesIn, Written } from "./written.ts";

export { rehearse, startServer, Written, warmUpOnce };

declare const self: DedicatedWorkerGlobalScope;

/** Modules that only a worker needs are loaded only in a worker; no message arrives before they are loaded. */
async function serveEditor(): Promise<void> {
  const { BrowserMessageReader, BrowserMessageWriter, createConnection, ResponseError } = await import(
    "vscode-languageserver/browser"
  );
  class ValuesWriter extends BrowserMessageWriter {
    override write(message: Message): Promise<void> {
      return super.write(valuesIn(message));
    }
  }
  const connection = createConnection(new BrowserMessageReader(self), new ValuesWriter(self));
  startServer(connection, filesOver(connection), ResponseError);
}

function filesOver(connection: Connection): ServerFiles {
  return {
    async read(path) {
      try {
        const found: ReadResult = await connection.sendRequest(READ_REQUEST, { uri: uriOf(path) });
        return { answer: found.kind === "bytes" ? textAnswer(bytesOf(found.base64)) : found, realPath: path };
      } catch (error) {
        return { answer: { kind: "unreadable", why: (error as Error).message }, realPath: path };
      }
    },
    async list() {
      try {
        const { uris, cut }: ListResult = await connection.sendRequest(LIST_REQUEST);
        return { paths: uris.map(pathOf), cut };
      } catch (error) {
        connection.console.warn(`The editor cannot list the scripts of its workspace: ${(error as Error).message}`);
        return { paths: [], cut: false };
      }
    },
  };
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

// Only a worker has it.
if ("importScripts" in globalThis) void serveEditor();
