/** What is told of dials that adjust, of positions, and of controls that do nothing. */
import { expect, test } from "vitest";
import { told, toldCases } from "./told.ts";

test.each(toldCases())("$title", (each) => {
  expect(told(each)).toBe(each.words);
});

test("there are cases of every kind", () => {
  expect(toldCases().length).toBeGreaterThan(40);
});
