import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { figureOf } from "../../shared/osd/figure.ts";

const readings = new Map<string, number | string>([
  ["charge-left", 60],
  ["home-bearing", 47],
  ["pitch-angle", -12],
  ["roll-angle", 8],
  ["heading", 218],
  ["height", 24.5],
  ["speed", 48],
  ["stick-roll", 6],
  ["stick-pitch", 18],
  ["stick-yaw", -3],
  ["stick-throttle", 44],
]);

test("every figure but the sight shows readings", () => {
  const figures = makeCatalogue().elements.filter(({ drawn }) => drawn !== "text");
  const without = figures.filter(({ name }) => figureOf(name, readings) === null).map(({ name }) => name);
  expect(without).toEqual(["sight"]);
  expect(figures.length).toBeGreaterThan(5);
});

test("a figure is as its readings say", () => {
  expect(figureOf("pack-bar", readings)).toEqual({ kind: "bar", share: 0.6 });
  expect(figureOf("home-arrow", readings)).toEqual({ kind: "arrow", turnDeg: 47 });
  expect(figureOf("horizon-line", readings)).toEqual({ kind: "horizon", pitchDeg: -12, rollDeg: 8 });
  expect(figureOf("stick-trace-right", readings)).toEqual({ kind: "stick", across: 0.06, up: 0.18 });
  // Throttle counts from its lower end, so that less than half of it is below the middle.
  expect(figureOf("stick-trace-left", readings)).toEqual({ kind: "stick", across: -0.03, up: -0.12 });
});

test("a pack cannot be fuller than full, nor emptier than empty", () => {
  expect(figureOf("pack-bar", new Map([["charge-left", -3]]))).toEqual({ kind: "bar", share: 0 });
  expect(figureOf("pack-bar", new Map([["charge-left", 104]]))).toEqual({ kind: "bar", share: 1 });
});

test("without its readings a figure shows none", () => {
  expect(figureOf("horizon-line", new Map([["pitch-angle", 3]]))).toBe(null);
  expect(figureOf("home-arrow", new Map([["home-bearing", "--"]]))).toBe(null);
  expect(figureOf("craft", readings)).toBe(null);
  expect(figureOf("constructor", readings)).toBe(null);
});
