/** One guard for every handler: a fault of ours costs an answer, never the server. */
import type {
  CancellationToken,
  Connection,
  ResultProgressReporter,
  WorkDoneProgressReporter,
} from "vscode-languageserver";
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

/**
 * A client that wants to be told of the progress of a request is, and one that takes lists in parts gets them so. A
 * request brings a token and is answered as soon as the client cancels it, whatever its handler is at.
 */
export function makeGuard({ connection, lifetime, onMessage, ResponseError }: Parts): Guard {
  return (name, empty, handler) =>
    async (...params) => {
      const token = params.find(isToken);
      let work: WorkDoneProgressReporter | undefined;
      const partial = params.find(isPartial);
      onMessage();
      try {
        if (name !== INITIALIZE && !lifetime.admits(token ? "request" : "notification")) return empty;
        if (token?.isCancellationRequested) throw cancelled();
        work = params.find(isWork);
        work?.begin(`Fettle: ${name}`, undefined, undefined, true);
        return inParts(await unlessCancelled(handler(...(params as never)), token), partial);
      } catch (error) {
        // Nobody waits for an answer to what was only told, or to what the server does by itself.
        if (error instanceof Refused && !token) return empty;
        if (error instanceof Refused) throw new ResponseError(error.code, error.message, error.data);
        logError(connection, name, error);
        return empty;
      } finally {
        work?.done();
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

/** What the protocol's library makes of a token for progress, which does nothing where the client gave none. */
function isWork(param: unknown): param is WorkDoneProgressReporter {
  return typeof param === "object" && param !== null && "begin" in param && "done" in param;
}

/** The same of a token for partial results; there is none where the client gave none. */
function isPartial(param: unknown): param is ResultProgressReporter<unknown[]> {
  return typeof param === "object" && param !== null && "report" in param && !("begin" in param);
}

/** So many are sent at once. */
const PART = 100;

/** A list, sent part by part to a client that takes it so: what is left for the answer is nothing. */
function inParts<R>(result: R, partial: ResultProgressReporter<unknown[]> | undefined): R {
  if (!partial || !Array.isArray(result)) return result;
  for (let at = 0; at < result.length; at += PART) partial.report(result.slice(at, at + PART));
  return [] as R;
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
