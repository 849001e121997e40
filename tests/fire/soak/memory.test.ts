import { expect, test } from "vitest";
import { growthOf, medianOf } from "./memory.ts";

const minutes = (memoryAt: (minute: number) => number) => Array.from({ length: 60 }, (_, minute) => memoryAt(minute));

test("the middle one of some, or the mean of the two in the middle", () => {
  expect(medianOf([3, 1, 2])).toBe(2);
  expect(medianOf([4, 1, 3, 2])).toBe(2.5);
  expect(medianOf([])).toBeNaN();
});

test("memory that rises at the beginning, and then swings as it is gathered, is flat", () => {
  expect(growthOf(minutes((minute) => Math.min(minute, 10) * 20 + (minute % 5) * 8))).toBe(0);
});

test("a leak of a megabyte a minute on two hundred is seen", () => {
  // Minutes 15 to 29 against 45 to 59: medians 222 and 252.
  expect(growthOf(minutes((minute) => 200 + minute))).toBeCloseTo(30 / 222);
  expect(growthOf(minutes((minute) => 200 + minute + (minute % 3) * 5))).toBeGreaterThan(0.05);
});

test("one that is given back is none, and the last quarter alone counts", () => {
  expect(growthOf(minutes((minute) => (minute > 30 && minute < 45 ? 900 : 200)))).toBe(0);
  expect(growthOf(minutes((minute) => (minute < 45 ? 200 : 300)))).toBeCloseTo(0.5);
});

test("nothing is said of fewer than four", () => {
  expect(growthOf([200, 300, 400])).toBeNaN();
});
