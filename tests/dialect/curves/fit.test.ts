/**
 * Our method of Levenberg and Marquardt, held to problems with certified answers: the Statistical Reference Datasets
 * of the U.S. National Institute of Standards and Technology (StRD, nonlinear regression), typed in from memory and
 * held to scipy 1.17.1, which finds the same from these numbers.
 */
import { expect, test } from "vitest";
import { fitLeastSquares } from "../../../shared/dialect/curves/fit.ts";

interface Problem {
  readonly name: string;
  readonly model: (b: readonly number[], x: number) => number;
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly number[];
  readonly squares: number;
}

const PROBLEMS: readonly Problem[] = [
  {
    name: "Misra1a, lower difficulty",
    model: ([b1 = 0, b2 = 0], x) => b1 * (1 - Math.exp(-b2 * x)),
    xs: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
    ys: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [2.3894212918e2, 5.5015643181e-4],
    squares: 1.2455138894e-1,
  },
  {
    name: "Thurber, higher difficulty",
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0], x) =>
      (b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3) / (1 + b5 * x + b6 * x ** 2 + b7 * x ** 3),
    xs: [
      -3.067, -2.981, -2.921, -2.912, -2.84, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501, -1.46,
      -1.274, -1.212, -1.1, -1.046, -0.915, -0.714, -0.566, -0.545, -0.4, -0.309, -0.109, -0.103, 0.01, 0.119, 0.377,
      0.79, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.2,
    ],
    ys: [
      80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.06, 401.672, 390.724,
      567.534, 635.316, 733.054, 759.087, 894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514,
      1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962, 1464.35, 1468.705, 1447.894, 1457.628,
    ],
    starts: [
      [1000, 1000, 400, 40, 0.7, 0.3, 0.03],
      [1300, 1500, 500, 75, 1, 0.4, 0.05],
    ],
    certified: [
      1.28813968e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1, 3.9797285797e-1, 4.9727297349e-2,
    ],
    squares: 5.6427082397e3,
  },
  {
    name: "MGH09, higher difficulty",
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0], x) => (b1 * (x * x + x * b2)) / (x * x + x * b3 + b4),
    xs: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
    ys: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
    starts: [[0.25, 0.39, 0.415, 0.39]],
    certified: [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
    squares: 3.0750560385e-4,
  },
];

test.for(PROBLEMS.flatMap((problem) => problem.starts.map((start) => ({ ...problem, start }))))(
  "$name, from $start",
  ({ model, xs, ys, start, certified, squares }) => {
    const bounds = { low: start.map(() => -1e9), high: start.map(() => 1e9), small: 1e-6 };
    const fit = fitLeastSquares(
      (b, out) =>
        xs.forEach((x, i) => {
          out[i] = model(b, x) - ys[i]!;
        }),
      xs.length,
      start,
      bounds,
    );
    expect(fit.squares / squares).toBeCloseTo(1, 9);
    for (const [i, value] of certified.entries()) expect(fit.parameters[i]! / value).toBeCloseTo(1, 5);
  },
);

test("a fit stays within its bounds, and there finds the least of what they leave", () => {
  // The nearest point to (3, -2) in a box: each coordinate at its own bound.
  const fit = fitLeastSquares(
    ([x = 0, y = 0], out) => {
      out[0] = x - 3;
      out[1] = 2 * (y + 2);
    },
    2,
    [0.5, 0.5],
    { low: [0, -1], high: [1, 1], small: 1e-3 },
  );
  expect(fit.parameters).toEqual([1, -1]);
  expect(fit.squares).toBe(8);
});

test("a parameter that changes nothing stays where it was", () => {
  const bounds = { low: [-9, -9], high: [9, 9], small: 1e-3 };
  const fit = fitLeastSquares(([x = 0], out) => out.set([x - 3]), 1, [1, 7], bounds);
  expect(fit.parameters[0]).toBeCloseTo(3, 9);
  expect(fit.parameters[1]).toBe(7);
});

test("without a value at the start there is no fit", () => {
  const bounds = { low: [0], high: [1], small: 1 };
  expect(fitLeastSquares((_, out) => out.set([Number.NaN]), 1, [0], bounds).squares).toBe(Number.POSITIVE_INFINITY);
});
