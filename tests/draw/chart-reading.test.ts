import { expect, test } from "vitest";
import { drawChart } from "../../shared/draw/chart.ts";
import { chartTable, nearestStop, readingInWords, stopsOf, valueAt } from "../../shared/draw/chart-reading.ts";
import { responseChart } from "../../shared/draw/filters.ts";
import { type Chart, plotIn } from "../../shared/draw/plot.ts";
import { ratesCharts } from "../../shared/draw/rates.ts";
import { evenScale, preferredNumbers } from "../../shared/draw/scale.ts";
import type { FiltersPicture, RatesPicture } from "../../shared/protocol/numbers.ts";
import { all } from "./find.ts";

const rates = (end: number): RatesPicture => ({
  set: "rates",
  axes: [
    {
      name: "roll",
      points: Array.from({ length: 41 }, (_, index) => [index / 40, end * (index / 40) ** 3] as const),
      endDegPerS: end,
      halfAtStick: 0.5 ** (1 / 3),
      at: null,
    },
  ],
  throttle: {
    points: [
      [0, 0],
      [1, 0.9],
    ],
    limit: 0.9,
    at: null,
  },
});
const filters: FiltersPicture = {
  chains: [
    {
      name: "gyro",
      response: [
        [10, 0],
        [100, -3.01],
        [155, -120],
        [200, -6],
        [1000, -23],
      ],
      delayMs: 1.59,
    },
  ],
  parts: [],
  motors: null,
  notches: { hoverHz: [155], fullHz: [700, 1400] },
  leftOut: [],
};
const [roll, throttle] = ratesCharts(rates(800), null).map(({ chart }) => chart) as [Chart, Chart];
const response = responseChart(filters);

test.each([
  [roll, 0, "stick centred: 0 deg/s"],
  [roll, 50, "half stick: 100 deg/s"],
  [roll, 2.5, "2.5 % stick: 0 deg/s"],
  [roll, 100, "full stick: 800 deg/s"],
  [throttle, 0, "stick down: 0 %"],
  [throttle, 50, "half stick: 45 %"],
  [response, 100, "100 Hz: gyro -3.0 dB"],
  [response, 155, "155 Hz: gyro nothing"],
  [response, 2000, "2000 Hz: gyro not known"],
])("a reading is given in words", (chart, x, words) => {
  expect(readingInWords(chart, x)).toBe(words);
});

test("two sets are read together, each with its name", () => {
  const [first] = ratesCharts(rates(800), rates(400));
  expect(readingInWords(first!.chart, 50)).toBe("half stick: first 100 deg/s, second 50 deg/s");
});

test("arrow keys stop at every point of a short curve, and at round places and every dip of a response", () => {
  expect(stopsOf(roll)).toEqual(Array.from({ length: 41 }, (_, index) => index * 2.5));
  expect(stopsOf(response).filter((hz) => hz >= 100 && hz <= 200)).toEqual([100, 110, 125, 140, 155, 160, 180, 200]);
  const many = Array.from({ length: 1001 }, (_, index) => [index / 10, index] as const);
  const stops = stopsOf({ ...roll, lines: [{ name: "", points: many }] });
  expect(stops.length).toBeLessThan(45);
  expect([stops[0], stops.at(-1)]).toEqual([0, 100]);
});

test("a pointer reads the stop that is nearest on the scale", () => {
  expect(nearestStop(roll, 0.51)).toBe(50);
  expect(nearestStop(roll, 2)).toBe(100);
  // Half way from 10 to 1000 on a scale of ratios.
  expect(nearestStop(response, 0.5)).toBe(100);
});

test("a line is interpolated between its points, and not known beyond them", () => {
  const line = {
    name: "",
    points: [
      [0, 0],
      [10, 5],
    ] as const,
  };
  expect([-1, 0, 4, 10, 11].map((x) => valueAt(line, x))).toEqual([null, 0, 2, 5, null]);
});

test("a chart's table has units in its head, and a row for each dip", () => {
  expect(chartTable(roll)).toEqual({
    head: ["stick, %", "turn, deg/s"],
    rows: [0, 1, 6, 22, 51, 100, 173, 274, 410, 583, 800].map((degPerS, index) => [
      String(index * 10),
      String(degPerS),
    ]),
  });
  expect(chartTable(response).head).toEqual(["frequency, Hz", "gyro, dB"]);
  expect(chartTable(response).rows).toContainEqual(["155", "nothing"]);
});

test("the reading is marked on every line that is within the scale there", () => {
  const box = { x: 0, y: 0, width: 300, height: 200 };
  const rings = (chart: Chart, x: number) => {
    const scene = drawChart(box, { ...chart, marks: [{ kind: "reading", x }] });
    expect(all(scene, "chart-reading")).toHaveLength(1);
    return String(all(scene, "chart-ring")[0]!.attributes.d).split("M").length - 1;
  };
  expect(rings(roll, 50)).toBe(1);
  expect(rings(response, 100)).toBe(1);
  expect(rings(response, 155)).toBe(0);
});

test("notches at full throttle have a wedge where the scale has them", () => {
  const [wedges] = all(drawChart({ x: 0, y: 0, width: 300, height: 200 }, response), "chart-place");
  expect(String(wedges!.attributes.d).match(/M/g)).toHaveLength(1);
});

test("a chart without a title has a higher plot", () => {
  const box = { x: 0, y: 0, width: 300, height: 200 };
  expect(plotIn(box, { ...roll, title: "" }).height).toBeGreaterThan(plotIn(box, roll).height);
  expect(all(drawChart(box, { ...roll, title: "" }), "chart-title")).toEqual([]);
});

test("preferred numbers rise by nearly the same ratio", () => {
  const numbers = preferredNumbers(10, 1000);
  expect(numbers).toHaveLength(41);
  for (const [index, number] of numbers.slice(1).entries()) {
    // Twenty to a decade, each within three in a hundred of its place.
    expect(number / 10 ** (1 + (index + 1) / 20)).toBeCloseTo(1, 1);
    expect(number).toBeGreaterThan(numbers[index]!);
  }
});

test("a label that would leave the chart stays within the plot", () => {
  const box = { x: 0, y: 0, width: 300, height: 200 };
  const falling = (name: string) => ({
    name,
    points: [
      [0, 100],
      [100, 0],
    ] as const,
  });
  const chart: Chart = {
    ...roll,
    y: evenScale({ name: "y", unit: "" }, 0, 100, 4),
    lines: [falling("a"), falling("b")],
  };
  const { y, height } = plotIn(box, chart);
  for (const name of all(drawChart(box, chart), "chart-name"))
    expect(Number(name.attributes.y)).toBeLessThanOrEqual(y + height);
});
