import { wcagContrast } from "culori";
import { expect, test } from "vitest";
import { drawChart } from "../../shared/draw/chart.ts";
import { drawDelays, drawFilters } from "../../shared/draw/filters.ts";
import { drawLoop, loopInWords, loopTableRows } from "../../shared/draw/loop.ts";
import { drawPack, packInWords } from "../../shared/draw/pack.ts";
import { DASHES, palettes } from "../../shared/draw/palette.ts";
import type { Chart } from "../../shared/draw/plot.ts";
import { drawRates } from "../../shared/draw/rates.ts";
import { evenScale, ratioScale } from "../../shared/draw/scale.ts";
import { node, type SceneNode } from "../../shared/draw/scene.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import type {
  FiltersPicture,
  LoopPicture,
  PackPicture,
  RatesAxis,
  RatesPicture,
} from "../../shared/protocol/numbers.ts";
import { all, numbers, texts } from "./find.ts";
import { changes, inkOf } from "./ink.ts";

const box = { x: 0, y: 0, width: 300, height: 200 };
const straight = (name: string, slope: number) => ({
  name,
  points: [
    [0, 0],
    [100, slope * 100],
  ] as const,
});

function chart(more: Partial<Chart>): Chart {
  return {
    title: "turn",
    words: "A line that rises.",
    x: evenScale({ name: "stick", unit: "%" }, 0, 100, 4),
    y: evenScale({ name: "turn", unit: "deg/s" }, 0, 700, 4),
    lines: [straight("", 7)],
    ...more,
  };
}

test.each([
  [0, 700, 4, [0, 200, 400, 600, 800]],
  [0, 100, 4, [0, 25, 50, 75, 100]],
  [-50, 0, 5, [-50, -40, -30, -20, -10, 0]],
  [3, 4.2, 4, [3, 3.5, 4, 4.5]],
  [0, 0, 4, [0, 0.25, 0.5, 0.75, 1]],
  [0, 1234, 5, [0, 250, 500, 750, 1000, 1250]],
])("an even scale from %d to %d has round ticks", (least, most, count, ticks) => {
  const scale = evenScale({ name: "x", unit: "" }, least, most, count);
  expect(scale.ticks).toEqual(ticks);
  expect(scale.share(ticks[0]!)).toBe(0);
  expect(scale.share(ticks.at(-1)!)).toBe(1);
});

test("on a scale of ratios equal lengths are equal ratios", () => {
  const scale = ratioScale({ name: "frequency", unit: "Hz" }, 10, 1000);
  expect(scale.ticks).toEqual([10, 20, 50, 100, 200, 500, 1000]);
  expect(scale.share(100)).toBeCloseTo(0.5);
  expect(scale.share(40) - scale.share(20)).toBeCloseTo(scale.share(20) - scale.share(10));
});

test("a chart names its scales with their units, its ticks, and itself in words", () => {
  const scene = drawChart(box, chart({}));
  const words = texts(scene);
  for (const word of ["turn", "turn, deg/s", "stick, %", "0", "25", "100", "400", "800"]) expect(words).toContain(word);
  expect(scene.attributes).toMatchObject({ role: "img", "aria-label": "A line that rises." });
});

test("lines differ by dashes, markers and names", () => {
  const lines = ["one", "two", "three", "four"].map((name, index) => straight(name, index + 1));
  const scene = drawChart(box, chart({ lines }));
  expect(
    all(scene, "chart-name")
      .map((name) => texts(name)[0])
      .sort(),
  ).toEqual(["four", "one", "three", "two"]);
  const shape = (path: SceneNode) =>
    String(path.attributes.d)
      .replaceAll(/^M\S+ \S+?(?=[a-z])/g, "")
      .split("M")[0];
  expect(new Set(all(scene, "chart-marker").map(shape)).size).toBe(4);
  expect(new Set(DASHES).size).toBe(4);
});

test("names of lines that end at one place are moved apart", () => {
  const scene = drawChart(box, chart({ lines: [straight("gyro", 7), straight("damping", 7), straight("both", 6.9)] }));
  const ys = all(scene, "chart-name")
    .map(({ attributes }) => Number(attributes.y))
    .sort((a, b) => a - b);
  for (const [index, y] of ys.slice(1).entries()) expect(y - ys[index]!).toBeGreaterThanOrEqual(11);
});

test("a single line has neither marker nor name", () => {
  const scene = drawChart(box, chart({}));
  expect([...all(scene, "chart-marker"), ...all(scene, "chart-name")]).toEqual([]);
});

test("lines are cut at the ends of the scale, also where they are infinite", () => {
  const y = evenScale({ name: "level", unit: "dB" }, -40, 0, 4);
  const points = [
    [0, 0],
    [50, -20],
    [60, Number.NEGATIVE_INFINITY],
    [70, -30],
    [80, -80],
    [100, -10],
  ] as const;
  const scene = drawChart(box, chart({ y, lines: [{ name: "", points }] }));
  const [line] = all(scene, "chart-line");
  expect(line!.attributes.d).not.toMatch(/NaN|Infinity/);
  const ys = String(line!.attributes.d)
    .split(/[ML]/)
    .filter(Boolean)
    .map((point) => Number(point.split(" ")[1]));
  const [axis] = all(scene, "chart-axis");
  const [, top = 0, height = 0] = /^M\S+ (\S+?)v([\d.]+)/.exec(String(axis!.attributes.d))!.map(Number);
  for (const y of ys) expect(y).toBeLessThanOrEqual(top + height + 0.01);
  expect(String(line!.attributes.d).split("M")).toHaveLength(4);
});

test("colours of lines have a contrast of 3:1 to the page", () => {
  // WCAG 2.2, 1.4.11 (read); the contrast as culori computes it. Okabe-Ito palette (read).
  const okabeIto = ["#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"];
  for (const { page, text, series } of Object.values(palettes)) {
    expect(series[0]).toBe(text);
    for (const colour of series) expect(wcagContrast(colour, page)).toBeGreaterThanOrEqual(3);
    expect(series.slice(1).every((colour) => okabeIto.includes(colour))).toBe(true);
  }
});

test("text of every drawing has a contrast of 4.5:1 to the page", () => {
  // WCAG 2.2, 1.4.3 (from memory).
  for (const { page, text, quiet } of Object.values(palettes)) {
    expect(wcagContrast(text, page)).toBeGreaterThanOrEqual(4.5);
    expect(wcagContrast(quiet, page)).toBeGreaterThanOrEqual(4.5);
  }
});

const axis = (name: RatesAxis["name"], endDegPerS: number): RatesAxis => ({
  name,
  points: Array.from({ length: 21 }, (_, index) => [index / 20, endDegPerS * (index / 20) ** 3] as const),
  endDegPerS,
  // The cube root of a half.
  halfAtStick: 0.5 ** (1 / 3),
  at: null,
});
const rates: RatesPicture = {
  set: "rates",
  axes: [axis("roll", 720), axis("pitch", 720), axis("yaw", 560)],
  throttle: {
    points: [
      [0, 0],
      [0.5, 0.3],
      [1, 0.9],
    ],
    limit: 0.9,
    at: null,
  },
};

test("each axis has a chart of its own, all on one scale and in one colour", () => {
  const scene = drawRates(rates);
  const charts = all(scene, "chart");
  expect(charts.map(({ attributes }) => attributes["aria-label"])).toEqual([
    "Roll: 720 deg/s at full stick, half of it at 79 % of the stick.",
    "Pitch: 720 deg/s at full stick, half of it at 79 % of the stick.",
    "Yaw: 560 deg/s at full stick, half of it at 79 % of the stick.",
    "Throttle: at most 90 %; half stick gives 30 %.",
  ]);
  expect(charts.map((one) => all(one, "chart-line").length)).toEqual([1, 1, 1, 1]);
  for (const one of charts.slice(0, 3))
    expect(texts(one)).toEqual(expect.arrayContaining(["0", "200", "800", "half at 79 %"]));
  expect(all(scene, "series-1")).toEqual([]);
});

const filters: FiltersPicture = {
  chains: [
    {
      name: "gyro",
      response: [
        [10, 0],
        [100, -3],
        [1000, -23],
      ],
      delayMs: 1.59,
    },
    {
      name: "damping",
      response: [
        [10, 0],
        [100, -9],
        [1000, -70],
      ],
      delayMs: 3.84,
    },
  ],
  parts: [
    { name: "smooth-gyro", what: "order 1 at 100 Hz", chain: "gyro", delayMs: 1.59, at: null },
    { name: "smooth-d", what: "order 2 at 100 Hz", chain: "damping", delayMs: 2.25, at: null },
  ],
  motors: { fromHz: 180, toHz: 480 },
  notches: { hoverHz: [180, 360], fullHz: [480, 960] },
  leftOut: [],
};

test("filters: both chains, the motors' band, and a bar for each delay", () => {
  const scene = drawFilters(filters);
  expect(all(scene, "chart-line")).toHaveLength(2);
  expect(all(scene, "chart-band")).toHaveLength(1);
  const bars = all(scene, "delay-bar").map(({ attributes }) => Number(attributes.width));
  expect(bars[1]! / bars[0]!).toBeCloseTo(2.25 / 1.59, 2);
  expect(bars[3]! / bars[0]!).toBeCloseTo(3.84 / 1.59, 2);
  expect(all(scene, "delay").map(({ attributes }) => attributes["aria-label"])).toEqual([
    "smooth-gyro, order 1 at 100 Hz: 1.59 ms",
    "smooth-d, order 2 at 100 Hz: 2.25 ms",
    "all of the gyro: 1.59 ms",
    "all of the damping: 3.84 ms",
  ]);
});

test("a craft without filters or rates still gives a drawing", () => {
  for (const scene of [
    drawFilters({ chains: [], parts: [], motors: null, notches: null, leftOut: [] }),
    drawRates({ set: "rates", axes: [], throttle: null }),
  ]) {
    expect(toSvg(scene, "light", { title: "x" })).not.toMatch(/NaN|Infinity|undefined/);
  }
});

const pack: PackPicture = {
  section: "pack/long",
  chemistry: "lipo",
  at: null,
  cells: 6,
  bears: { fromCellV: 2.75, toCellV: 4.2 },
  marks: [
    { name: "warn-at", cellV: 3.5, usual: { fromCellV: 3.1, toCellV: 3.8 }, at: null },
    { name: "full-at", cellV: 4.2, usual: { fromCellV: 4, toCellV: 4.2 }, at: null },
    { name: "land-at", cellV: 3.3, usual: { fromCellV: 3, toCellV: 3.7 }, at: null },
  ],
  capacityMah: 1100,
  usableMah: 880,
  hoverS: 480,
  worst: null,
  fullS: 61,
};

test("a pack of which nothing is said has a scale, and says that it holds nothing yet", () => {
  const bare = { ...pack, bears: null, chemistry: null, marks: [], usableMah: null };
  expect(texts(drawPack(bare))).toContain("no chemistry and no thresholds yet");
  expect(texts(drawPack(pack))).not.toContain("no chemistry and no thresholds yet");
});

test("a pack: thresholds in order of volts, each with where it is usual and words of its own", () => {
  const scene = drawPack(pack);
  expect(all(scene, "pack-label").flatMap(texts)).toEqual([
    "full-at 4.20 V/cell, 25.2 V",
    "warn-at 3.50 V/cell, 21.0 V",
    "land-at 3.30 V/cell, 19.8 V",
  ]);
  const ys = all(scene, "pack-label").map(({ attributes }) => Number(attributes.y));
  for (const [index, y] of ys.slice(1).entries()) expect(y - ys[index]!).toBeGreaterThanOrEqual(14.9);
  expect(all(scene, "pack-usual")).toHaveLength(3);
  // The scale of one cell, and of the pack of six: 3.5 and 21 V at one height.
  const tick = (said: string) => all(scene, "small").find((each) => texts(each)[0] === said)!.attributes.y;
  expect(tick("3.5")).toBe(tick("21"));
  expect(packInWords(pack)).toBe(
    "long, 6 cells, 1100 mAh. A cell may have 2.75 to 4.20 V. warn-at 3.50 V/cell, 21.0 V. full-at 4.20 V/cell, 25.2 V. " +
      "land-at 3.30 V/cell, 19.8 V. 880 mAh last 8:00 in the hover. 880 mAh last 1:01 at full current.",
  );
});

const unplaced = { at: null, gyroAt: null, commandAt: null };
const loop: LoopPicture = { ...unplaced, roundUs: 125, frameUs: 55.33, pauseUs: 2, answerUs: null, gyroRatio: 1 };
const tight: LoopPicture = { ...unplaced, roundUs: 50, frameUs: 55, pauseUs: 2, answerUs: null, gyroRatio: null };

test("a loop: the command within its round, and what is left; what does not fit is hatched", () => {
  const width = (kind: string) => Number(all(drawLoop(loop), kind)[0]!.attributes.width);
  expect((width("delay-bar") + width("loop-pause")) / width("loop-round")).toBeCloseTo(55.33 / 125, 2);
  expect(width("loop-pause") / width("loop-round")).toBeCloseTo(2 / 125, 2);
  const samples = (gyroRatio: number) => all(drawLoop({ ...loop, gyroRatio }), "loop-sample").length;
  expect([samples(1), samples(2), samples(2.5), samples(100)]).toEqual([1, 2, 3, 1]);
  expect(all(drawLoop(loop), "over")).toEqual([]);
  expect(all(drawLoop(tight), "over")).toHaveLength(1);
  const answered = { ...loop, frameUs: 147, answerUs: 91.67 };
  const bar = (kind: string) => Number(all(drawLoop({ ...answered, roundUs: 250 }), kind)[0]!.attributes.width);
  expect(bar("loop-answer") / bar("loop-round")).toBeCloseTo(91.67 / 250, 2);
  expect(bar("delay-bar") / bar("loop-round")).toBeCloseTo(53.33 / 250, 2);
  expect(all(drawLoop(loop), "loop-answer")).toEqual([]);
  expect(loopTableRows(answered)).toContainEqual(["command", "53.3 us, answer 91.7 us, pause 2 us"]);
  expect(loopInWords(answered)).toContain(
    "A command with its answer, in all 147 us in a round of 125 us: 22 us too long",
  );
  expect(loopInWords(loop)).toBe(
    "A command of 55.3 us in a round of 125 us: 69.7 us to spare. 1 gyro sample to a round.",
  );
  expect(loopInWords(tight)).toBe("A command of 55 us in a round of 50 us: 5 us too long.");
});

test.each([
  ["pack", drawPack(pack)],
  ["bare pack", drawPack({ ...pack, bears: null, marks: [], cells: null, capacityMah: null, usableMah: null })],
  ["narrow pack", drawPack(pack, { width: 280 })],
  ["loop", drawLoop(loop)],
  ["tight loop", drawLoop(tight)],
  ["rates", drawRates(rates)],
  ["narrow rates", drawRates(rates, { width: 200 })],
  ["filters", drawFilters(filters)],
  ["narrow filters", drawFilters(filters, { width: 300 })],
  ["narrowest pack", drawPack(pack, { width: 220, heading: "none" })],
  ["narrowest loop", drawLoop(loop, { width: 220, heading: "none" })],
  ["narrowest delays", drawDelays(filters, { width: 220 })],
  ["pack of one cell", drawPack({ ...pack, cells: 1 }, { width: 460 })],
])("nothing of the %s is drawn outside the picture, by an independent renderer", (_, scene) => {
  const [, , width = 0, height = 0] = numbers(scene.attributes.viewBox);
  const svg = (shown: SceneNode) => toSvg(shown, "light", { title: "x", letters: "outlines", margin: 40 });
  const bare = svg({ ...scene, children: [] });
  const stray = changes(inkOf(bare), inkOf(svg(scene))).filter(
    ({ x, y }) => x < 39 || y < 39 || x > 41 + width || y > 41 + height,
  );
  expect(stray).toEqual([]);
});

test("a chart is a group that can be part of any drawing", () => {
  const svg = toSvg(node("svg", { viewBox: "0 0 300 200" }, [drawChart(box, chart({}))]), "dark", { title: "x" });
  expect(svg).toContain('aria-label="A line that rises."');
});
