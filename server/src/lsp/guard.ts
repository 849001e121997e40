/** One guard for every handler: a fault of ours costs an answer, never the server. */
import type { Connection } from "vscode-languageserver";

/** Runs a handler; where it throws, logs why and answers with `empty`. */
export type Guard = <P extends unknown[], R>(
  name: string,
  empty: R,
  handler: (...params: P) => R | Promise<R>,
) => (...params: P) => Promise<R>;

/** `onMessage` is called before each. */
export function makeGuard(connection: Connection, onMessage: () => void): Guard {
  return (name, empty, handler) =>
    async (...params) => {
      onMessage();
      try {
        return await handler(...params);
      } catch (error) {
        logError(connection, name, error);
        return empty;
      }
    };
}

/** A fault of ours in the editor's log, with where it came from. */
export function logError(connection: Connection, name: string, error: unknown): void {
  connection.console.error(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
}
