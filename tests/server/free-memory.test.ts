import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { freeInSilence } from "../../server/src/node/free-memory.ts";

const MB = 1024 * 1024;
let heapMB = 30;
beforeEach(() => {
  vi.useFakeTimers();
  vi.spyOn(process, "memoryUsage").mockImplementation((() => ({ heapTotal: heapMB * MB })) as never);
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

test("memory is given back once in each silence, where there is some to give back", async () => {
  heapMB = 30;
  const free = vi.fn(async () => {
    heapMB = 18;
  });
  const heard = freeInSilence(free);
  const timesAfter = async (ms: number) => {
    await vi.advanceTimersByTimeAsync(ms);
    return free.mock.calls.length;
  };
  expect(await timesAfter(5000)).toBe(0);
  for (let i = 0; i < 5; i++) {
    heard();
    expect(await timesAfter(2400)).toBe(0);
  }
  expect(await timesAfter(200)).toBe(1);
  expect(await timesAfter(10_000)).toBe(1);
  heapMB = 21;
  heard();
  expect(await timesAfter(3000)).toBe(1);
  heapMB = 22;
  heard();
  expect(await timesAfter(3000)).toBe(2);
});

test("the engine gives back what is dropped", async () => {
  vi.restoreAllMocks();
  const dropped = new WeakRef({ jug: 1 });
  freeInSilence()();
  await vi.advanceTimersByTimeAsync(3000);
  vi.useRealTimers();
  await vi.waitFor(() => expect(dropped.deref()).toBeUndefined(), { timeout: 5000 });
});
