/** One guard for every handler: a fault of ours costs an answer, never the server. */
import type { Connection } from "vscode-languageserver";

/** Runs a handler; where it throws, logs why and answers with `empty`. */
export type Guard = <P extends unknown[], R>(
  name: string,
  empty: R,
  handler: (...params: P) => R | Promise<R>,
) => (...params: P) => Promise<R>;

export function makeGuard(connection: Connection): Guard {
  return (name, empty, handler) =>
    async (...params) => {
      try {
        return await handler(...params);
      } catch (error) {
        connection.console.error(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
        return empty;
      }
    };
}
