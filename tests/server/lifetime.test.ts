/** A worker outlives its client: one that is started again with it begins anew. */
import { expect, test } from "vitest";
import { makeLifetime } from "../../server/src/lsp/lifetime.ts";

test("after “exit” it is begun anew, and not before", () => {
  const lifetime = makeLifetime();
  lifetime.begin();
  expect(() => lifetime.begin()).toThrow("initialized already");
  lifetime.shutDown();
  expect(() => lifetime.begin()).toThrow("initialized already");
  lifetime.exit();
  expect(lifetime.isOver()).toBe(true);
  expect(() => lifetime.admits("request")).toThrow("initialize");
  lifetime.begin();
  expect([lifetime.admits("request"), lifetime.isOver()]).toEqual([true, false]);
});
