import { afterEach, expect, test, vi } from "vitest";
import { rehearse, warmUpOnce } from "../../server/src/lsp/warm-up.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const JUG = "file:///shed/jug.fettle";
const jug = 'craft "Jug"\n\npack\n  cells 99\n';

let session: Session | undefined;
afterEach(() => {
  session?.end();
  vi.useRealTimers();
});

/** A session of an editor that is pushed its findings, on a server that warms up by typing `keys`. */
async function startWarming(keys: typeof rehearse): Promise<Session> {
  const files = filesInMemory({ "/shed/jug.fettle": jug });
  session = await startSession(files, { textDocument: {} }, undefined, warmUpOnce(keys));
  await session.open(JUG, jug);
  return session;
}

async function* failing(): AsyncGenerator<number> {
  yield 1;
  throw new Error("The kettle is cold.");
}

const symbolsOf = ({ client }: Session) =>
  client.sendRequest("textDocument/documentSymbol", { textDocument: { uri: JUG } });

test("every key of the rehearsal is checked, and its digit is found to be too much each time", async () => {
  const found: number[] = [];
  for await (const count of rehearse()) found.push(count);
  expect(found.length).toBe(152);
  const [first, typed, untyped] = found;
  expect(first).toBeGreaterThan(0);
  expect(typed).toBeGreaterThan(untyped!);
  const keys = found.slice(1, -1);
  expect(keys).toEqual(keys.map((_, i) => (i % 2 === 0 ? typed : untyped)));
  // The examples of all settings together are no craft that flies.
  expect(found.at(-1)).toBeGreaterThan(10);
});

test("it begins once the first message is answered, goes on in silence by short steps, and gives way to every message", async () => {
  vi.useFakeTimers();
  let keys = 0;
  const four = async function* () {
    while (keys < 4) yield ++keys;
  };
  const failed = vi.fn();
  const message = warmUpOnce(four)(failed);
  const after = async (ms: number) => {
    await vi.advanceTimersByTimeAsync(ms);
    return keys;
  };
  expect(await after(1000)).toBe(0);
  message();
  expect(keys).toBe(0);
  expect(await after(1)).toBe(1);
  for (let i = 0; i < 5; i++) {
    message();
    expect(await after(59)).toBe(1);
  }
  expect(await after(1)).toBe(2);
  expect(await after(2)).toBe(3);
  message();
  expect(await after(59)).toBe(3);
  expect(await after(1)).toBe(4);
  expect(await after(2)).toBe(4);
  message();
  expect(vi.getTimerCount()).toBe(0);
  expect(failed).not.toHaveBeenCalled();
});

test("what goes wrong in it is its end: it is told once, and no message begins it again", async () => {
  vi.useFakeTimers();
  const told: unknown[] = [];
  const message = warmUpOnce(failing)((error) => told.push(error));
  message();
  await vi.advanceTimersByTimeAsync(1000);
  expect(told).toEqual([new Error("The kettle is cold.")]);
  message();
  expect(vi.getTimerCount()).toBe(0);
});

test("it serves every connection of the process: a second one begins none", async () => {
  vi.useFakeTimers();
  const makeWarmUp = warmUpOnce();
  makeWarmUp(() => {});
  makeWarmUp(() => {})();
  expect(vi.getTimerCount()).toBe(0);
});

test("an editor hears nothing of the warm-up, and is answered while it goes on", async () => {
  let keys = 0;
  let isOver = false;
  const counted = async function* () {
    for await (const count of rehearse()) {
      keys++;
      yield count;
    }
    isOver = true;
  };
  const warming = await startWarming(counted);
  await vi.waitFor(() => expect(keys).toBeGreaterThan(10), { timeout: 20_000, interval: 1 });
  expect(await symbolsOf(warming)).toMatchObject([{ name: "Jug" }, { name: "pack" }, { name: "cells" }]);
  expect(isOver).toBe(false);
  await vi.waitFor(() => expect(isOver).toBe(true), { timeout: 20_000 });
  expect(keys).toBe(152);
  // What the server sent before this answer has come by now.
  await symbolsOf(warming);
  expect([...warming.pushed.keys()]).toEqual([JUG]);
  expect(warming.log).toEqual([]);
});

test("what goes wrong in it is logged, and the editor is served on", async () => {
  const warming = await startWarming(failing);
  await vi.waitFor(() => expect(warming.log).toHaveLength(1), { timeout: 20_000 });
  expect(warming.log[0]).toMatch(/^warm-up: Error: The kettle is cold\./);
  expect(await symbolsOf(warming)).toMatchObject([{ name: "Jug" }, { name: "pack" }, { name: "cells" }]);
});
