/** Every handler of the server is under the guard: whatever it is sent, it answers, and what went wrong is in the log. */
import { expect, test } from "vitest";
import { type Connection, ResponseError } from "vscode-languageserver/node";
import { startServer } from "../../server/src/lsp/start.ts";
import { filesInMemory } from "./session.ts";

type Handler = (...params: unknown[]) => unknown;

/** A connection that takes down what it is given to call, by name, and what is logged on it. */
function recorder() {
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

/** What no client should send: nothing, nulls in place of parts, and values of which every use throws. */
const hostile = new Proxy(
  {},
  {
    get(_, name) {
      // Asked of everything that a promise is to give.
      if (name === "then") return undefined;
      throw new Error("hostile");
    },
  },
);

/** A server that nobody has sent anything. */
function fresh() {
  const recorded = recorder();
  startServer(recorded.connection, filesInMemory({}), ResponseError);
  return recorded;
}

/** A server that takes requests. */
async function started() {
  const recorded = fresh();
  await recorded.handlers.get("onInitialize")!({ capabilities: {} });
  return recorded;
}

const { handlers } = await started();

test("the handlers of every feature are found", () => {
  const names = [...handlers.keys()];
  expect(names).toEqual(
    expect.arrayContaining([
      "onInitialize",
      "onCompletionResolve",
      "onCodeAction",
      "onHover",
      "onRequest:fettle/panel",
    ]),
  );
  expect(names.length).toBeGreaterThan(25);
});

/** The one for whatever has no handler of its own refuses it: `tests/server/conformance/lifetime.test.ts`. */
const named = [...handlers.keys()].filter((name) => name !== "onRequest");

test.each(named)("%s answers whatever it is sent", async (name) => {
  // There is but one of each in a session.
  const isOnce = name === "onInitialize" || name === "onShutdown";
  for (const params of [undefined, null, {}, { textDocument: null }, hostile]) {
    const answer = (async () => (isOnce ? fresh().handlers : handlers).get(name)!(params))();
    await expect(answer, name).resolves.not.toThrow();
  }
});

test("a fault while an item of completion is described is a line in the log, and the item comes back as it was", async () => {
  const { handlers: of, log } = await started();
  const item = { label: "cells", data: hostile };
  expect(await of.get("onCompletionResolve")!(item)).toBe(item);
  expect(log.join()).toMatch(/^completion details: Error: hostile/);
});

test("a server that was started with nonsense still serves", async () => {
  const { connection: other, handlers: of, log } = recorder();
  startServer(other, filesInMemory({}), ResponseError);
  const answer = await of.get("onInitialize")!({ capabilities: null });
  expect(answer).toMatchObject({ capabilities: { hoverProvider: true } });
  expect(log.join()).toMatch(/^initialize: TypeError/);
});
