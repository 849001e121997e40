/** Every handler of the server is under the guard: whatever it is sent, it answers, and what went wrong is in the log. */
import { expect, test } from "vitest";
import { ResponseError } from "vscode-languageserver/node";
import { startServer } from "../../server/src/lsp/start.ts";
import { freshServer, recorder } from "./recorder.ts";
import { filesInMemory } from "./session.ts";

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

/** A server that takes requests. */
async function started() {
  const recorded = freshServer();
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
    const answer = (async () => (isOnce ? freshServer().handlers : handlers).get(name)!(params))();
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
