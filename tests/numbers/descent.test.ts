import { expect, test } from "vitest";
import { descentS, hoverWith } from "../../shared/numbers/descent.ts";

test("hoverWith: half the volts want twice the throttle, and four times the mass too (computed)", () => {
  expect(hoverWith(20, 1, 0.5)).toBe(40);
  expect(hoverWith(20, 4, 1)).toBe(40);
  expect(hoverWith(30, 1, 6 / 4)).toBe(20);
  expect(hoverWith(30, 1, 1)).toBe(30);
});

test("descentS: forty metres at two metres a second take twenty (computed)", () => {
  expect(descentS(40, 2)).toBe(20);
});
