import { execFileSync } from "node:child_process";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { boundGrowth, freeInSilence } from "../../server/src/node/free-memory.ts";

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

test("a large heap may grow by a part of itself alone, for as long as it is large", async () => {
  const set: string[] = [];
  const heard = boundGrowth(
    () => heapMB * MB,
    (percent) => set.push(`${heapMB} MB: ${percent} %`),
  );
  for (heapMB of [17, 63, 64, 180, 500, 40, 20, 70]) {
    // Messages come many at once.
    for (let i = 0; i < 3; i++) heard();
    await vi.advanceTimersByTimeAsync(1000);
  }
  expect(set).toEqual(["64 MB: 40 %", "40 MB: 0 %", "70 MB: 40 %"]);
});

test("the engine knows by its own name what bounds the growth of its heap", () => {
  const options = execFileSync(process.execPath, ["--v8-options"], { encoding: "utf8" });
  expect(options).toMatch(/^ +--heap-growing-percent .*\n +type: int/m);
});

test("the engine gives back what is dropped", async () => {
  vi.restoreAllMocks();
  const dropped = new WeakRef({ jug: 1 });
  freeInSilence()();
  await vi.advanceTimersByTimeAsync(3000);
  vi.useRealTimers();
  await vi.waitFor(() => expect(dropped.deref()).toBeUndefined(), { timeout: 5000 });
});
