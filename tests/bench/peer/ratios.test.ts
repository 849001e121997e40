import { expect, test } from "vitest";
import { ratioOf, spreadOf } from "./ratios.ts";

test("the middle of an odd and of an even number of figures", () => {
  expect(spreadOf([9, 1, 4])).toEqual({ median: 4, min: 1, max: 9 });
  expect(spreadOf([10, 1, 2, 4])).toEqual({ median: 3, min: 1, max: 10 });
  expect(() => spreadOf([])).toThrow("no figures");
});

test("a ratio is taken round by round: a round that was slow on both sides is no outlier", () => {
  expect(ratioOf([1, 10, 2], [2, 20, 2])).toEqual({ median: 0.5, min: 0.5, max: 1 });
  expect(() => ratioOf([1, 2], [1])).toThrow("2 rounds beside 1");
});
