import { describe, expect, test } from "vitest";
import { growthOf, leastSquares, type XY } from "./fit.ts";

/**
 * Norris, of the Statistical Reference Datasets of NIST (linear least squares, one predictor, 36 observations: x, then
 * y), with its certified values; from memory.
 */
const NORRIS = `
  0.2 0.1  337.4 338.8  118.2 118.1  884.6 888.0  10.1 9.2  226.5 228.1  666.3 668.5  996.3 998.5  448.6 449.1
  777.0 778.9  558.2 559.2  0.4 0.3  0.6 0.1  775.5 778.1  666.9 668.8  338.0 339.3  447.5 448.9  11.6 10.8
  556.0 557.7  228.1 228.3  995.8 998.0  887.6 888.8  120.2 119.6  0.3 0.3  0.3 0.6  556.8 557.6  339.1 339.3
  887.2 888.0  999.0 998.5  779.0 778.9  11.1 10.2  118.3 117.6  229.2 228.9  669.1 668.4  448.9 449.2  0.5 0.2`;

describe("least squares", () => {
  test("NIST's Norris, to ten digits", () => {
    const numbers = NORRIS.trim().split(/\s+/).map(Number);
    const points = Array.from({ length: numbers.length / 2 }, (_, i): XY => [numbers[2 * i]!, numbers[2 * i + 1]!]);
    expect(points).toHaveLength(36);
    const { slope, intercept } = leastSquares(points);
    expect(slope).toBeCloseTo(1.00211681802045, 10);
    expect(intercept).toBeCloseTo(-0.262323073774029, 10);
  });

  test("one x has no line", () => {
    expect(() =>
      leastSquares([
        [2, 1],
        [2, 3],
      ]),
    ).toThrow("points of one x");
  });
});

describe("growth", () => {
  const sizes = [10, 20, 50, 100, 200, 500, 1000];
  test.each([
    ["the same always", () => 7, 0],
    ["a straight line", (n: number) => 3 * n, 1],
    ["a square", (n: number) => n * n, 2],
    ["a root", (n: number) => Math.sqrt(n), 0.5],
  ])("%s", (_, cost, exponent) => {
    expect(growthOf(sizes.map((n) => [n, cost(n)]))).toBeCloseTo(exponent, 12);
  });

  test("what it costs at the beginning says nothing of how it goes on", () => {
    expect(growthOf(sizes.map((n) => [n, n <= 50 ? 1000 : n ** 2]))).toBeCloseTo(2, 12);
  });
});
