/** One guard for every handler: a fault of ours costs an answer, never the server. */
import type { Connection } from "vscode-languageserver";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import { Refused, type ResponseErrorClass } from "./refused.ts";

/** What a request or a notification brings; the address of the document that it is about is typed as one. */
export type Addressed<P> = P extends { textDocument: infer D extends { uri: string } }
  ? Omit<P, "textDocument"> & { textDocument: Omit<D, "uri"> & { uri: Uri } }
  : P;

/** Runs a handler; where it throws, logs why and answers with `empty`; where it refuses, the client is told so. */
export type Guard = <P extends unknown[], R>(
  name: string,
  empty: R,
  handler: (...params: { [K in keyof P]: Addressed<P[K]> }) => R | Promise<R>,
) => (...params: P) => Promise<R>;

/** `onMessage` is called before each. */
export function makeGuard(connection: Connection, onMessage: () => void, ResponseError: ResponseErrorClass): Guard {
  return (name, empty, handler) =>
    async (...params) => {
      onMessage();
      try {
        return await handler(...(params as never));
      } catch (error) {
        if (error instanceof Refused) throw new ResponseError(error.code, error.message);
        logError(connection, name, error);
        return empty;
      }
    };
}

/** A fault of ours in the editor's log, with where it came from. */
export function logError(connection: Connection, name: string, error: unknown): void {
  connection.console.error(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
}
