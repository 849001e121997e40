/** One guard for every handler: a fault of ours costs an answer, never the server. */
import type { CancellationToken, Connection } from "vscode-languageserver";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Lifetime } from "./lifetime.ts";
import { cancelled, Refused, type ResponseErrorClass } from "./refused.ts";

/** What a request or a notification brings; the address of the document that it is about is typed as one. */
export type Addressed<P> = P extends { textDocument: infer D extends { uri: string } }
  ? Omit<P, "textDocument"> & { textDocument: Omit<D, "uri"> & { uri: Uri } }
  : P;

/** What a request of our own brings besides its parameters. */
export type Request<P> = [params: P, token: CancellationToken];

/** Runs a handler; where it throws, logs why and answers with `empty`; where it refuses, the client is told so. */
export type Guard = <P extends unknown[], R>(
  name: string,
  empty: R,
  handler: (...params: { [K in keyof P]: Addressed<P[K]> }) => R | Promise<R>,
) => (...params: P) => Promise<R>;

interface Parts {
  readonly connection: Connection;
  readonly lifetime: Lifetime;
  /** Called before each. */
  readonly onMessage: () => void;
  readonly ResponseError: ResponseErrorClass;
}

/** A request brings a token and is answered as soon as the client cancels it, whatever its handler is at. */
export function makeGuard({ connection, lifetime, onMessage, ResponseError }: Parts): Guard {
  return (name, empty, handler) =>
    async (...params) => {
      const token = params.find(isToken);
      onMessage();
      try {
        if (name !== INITIALIZE && !lifetime.admits(token ? "request" : "notification")) return empty;
        if (token?.isCancellationRequested) throw cancelled();
        return await unlessCancelled(handler(...(params as never)), token);
      } catch (error) {
        // Nobody waits for an answer to what was only told, or to what the server does by itself.
        if (error instanceof Refused && !token) return empty;
        if (error instanceof Refused) throw new ResponseError(error.code, error.message);
        logError(connection, name, error);
        return empty;
      }
    };
}

/** The handler of a request that is answered with what it brings, and more where more is known. */
export function resolving<T extends object>(
  guard: Guard,
  name: string,
  more: (item: T) => T | Promise<T>,
): (item: T, token: CancellationToken) => Promise<T> {
  return (item, token) =>
    guard<[T, CancellationToken], T>(name, item, (given) => more(given as unknown as T))(item, token);
}

/** The guard's name for the one request that comes before all others. */
export const INITIALIZE = "initialize";

function isToken(param: unknown): param is CancellationToken {
  return typeof param === "object" && param !== null && "isCancellationRequested" in param;
}

/** What comes of the work; a client that cancels does not wait for it. */
function unlessCancelled<R>(work: R | Promise<R>, token: CancellationToken | undefined): R | Promise<R> {
  if (!token || !(work instanceof Promise)) return work;
  return new Promise((resolve, reject) => {
    const listening = token.onCancellationRequested(() => reject(cancelled()));
    void work.then(resolve, reject).finally(() => listening.dispose());
  });
}

/** A fault of ours in the editor's log, with where it came from. */
export function logError(connection: Connection, name: string, error: unknown): void {
  connection.console.error(`${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
}
