/** Which ticks of the bench list hold, on which a day is written. */
import { expect, test } from "vitest";
import { tickedIn, toggled, withoutCheck } from "../../client/panel/bench-ticks.ts";
import type { BenchList, BenchStep } from "../../shared/protocol/bench.ts";

const HOUR_MS = 3_600_000;
const step = (id: string, expects: string | null, check: string | null = null): BenchStep => ({
  id,
  what: `Do ${id}.`,
  expect: expects,
  caution: null,
  risk: "powered",
  due: { state: "each-time" },
  check,
  readings: [],
  moves: [],
  picture: null,
  from: [],
});
const list = (...steps: BenchStep[]): BenchList => ({
  craft: "Jug",
  file: "jug.fettle",
  warning: "",
  phases: [{ name: "all", title: "All", how: null, steps }],
  checks: [],
  unknown: [],
});
const before = list(step("a", "It turns left.", "bench.motors-checked"), step("b", null));

test("a tick is made and taken back", () => {
  const ticks = toggled(before, {}, "a", 0);
  expect([...tickedIn(before, ticks, 1)]).toEqual(["a"]);
  expect(toggled(before, ticks, "a", 1)).toEqual({});
  expect(toggled(before, ticks, "gone", 1)).toEqual(ticks);
});

test("it holds no longer once the step expects something else, and again once it does not", () => {
  const ticks = toggled(before, toggled(before, {}, "a", 0), "b", 0);
  const after = list(step("a", "It turns right.", "bench.motors-checked"), step("b", null));
  expect([...tickedIn(after, ticks, 1)]).toEqual(["b"]);
  expect([...tickedIn(before, ticks, 1)]).toEqual(["a", "b"]);
  // Ticked anew, it holds for what is expected now.
  expect([...tickedIn(after, toggled(after, ticks, "a", 2), 3)]).toEqual(["a", "b"]);
});

test("it is none of the next day, and can be made anew", () => {
  const ticks = toggled(before, {}, "a", 0);
  expect(tickedIn(before, ticks, 11 * HOUR_MS).size).toBe(1);
  expect(tickedIn(before, ticks, 12 * HOUR_MS).size).toBe(0);
  expect(tickedIn(before, toggled(before, ticks, "a", 13 * HOUR_MS), 14 * HOUR_MS).size).toBe(1);
});

test("with a check that no longer holds its ticks go", () => {
  const ticks = toggled(before, toggled(before, {}, "a", 0), "b", 0);
  expect([...tickedIn(before, withoutCheck(before, ticks, "bench.motors-checked"), 1)]).toEqual(["b"]);
});
