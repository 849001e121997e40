/** What the server gives a connection to call: every handler by its name. */
import { type Connection, ResponseError } from "vscode-languageserver/node";
import { startServer } from "../../server/src/lsp/start.ts";
import { filesInMemory } from "./session.ts";

export type Handler = (...params: unknown[]) => unknown;

export interface Recorder {
  readonly connection: Connection;
  /** By the name of what they are given to, with the method where that is said: `onHover`, `onRequest:fettle/panel`. */
  readonly handlers: ReadonlyMap<string, Handler>;
  /** Lines that were logged as errors. */
  readonly log: readonly string[];
}

/** A connection that takes down what it is given to call, and what is logged on it. */
export function recorder(): Recorder {
  const handlers = new Map<string, Handler>();
  const log: string[] = [];
  const part = (path: string): unknown =>
    new Proxy(() => undefined, {
      get: (_, name) => (name === "then" ? undefined : part(`${path}.${String(name)}`)),
      apply(_, __, args: unknown[]) {
        if (path === ".console.error") log.push(String(args[0]));
        const handler = args.find((each): each is Handler => typeof each === "function");
        const method = typeof args[0] === "string" ? `:${args[0]}` : "";
        if (handler) handlers.set(`${path.slice(1)}${method}`, handler);
        return Promise.resolve(null);
      },
    });
  return { connection: part("") as Connection, handlers, log };
}

/** A server that nobody has sent anything. */
export function freshServer(): Recorder {
  const recorded = recorder();
  startServer(recorded.connection, filesInMemory({}), ResponseError);
  return recorded;
}

const OWN_REQUEST = "onRequest:";

/** The requests of our own that the server answers, by method. */
export function ownRequests(): string[] {
  const names = [...freshServer().handlers.keys()].filter((name) => name.startsWith(OWN_REQUEST));
  return names.map((name) => name.slice(OWN_REQUEST.length));
}
