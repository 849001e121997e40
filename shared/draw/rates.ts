/** How fast the craft turns at each stick position: a small chart for each axis, all on one scale, and the throttle. */

import type { RatesAxis, RatesPicture } from "../protocol/numbers.ts";
import { drawChart } from "./chart.ts";
import { valueAt } from "./chart-reading.ts";
import type { Chart, ChartLine } from "./plot.ts";
import { evenScale, type Scale } from "./scale.ts";
import { node, type SceneNode } from "./scene.ts";
import { capital } from "./words.ts";

const NARROWEST = 168;
const HEIGHT = 190;
const GAP = 14;

export interface RatesOptions {
  readonly width?: number | undefined;
  /** The second set, drawn into the charts of the first. */
  readonly second?: RatesPicture | null | undefined;
}

/** All charts as one SVG, in as many columns as the width allows. */
export function drawRates(picture: RatesPicture, { width = 720, second = null }: RatesOptions = {}): SceneNode {
  const charts = ratesCharts(picture, second);
  const columns = Math.max(1, Math.min(charts.length, Math.floor((width + GAP) / (NARROWEST + GAP))));
  const chartWidth = Math.min(260, (Math.max(width, NARROWEST) - GAP * (columns - 1)) / columns);
  const rows = Math.ceil(charts.length / columns);
  const drawn = charts.map(({ chart }, index) => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return drawChart(
      { x: column * (chartWidth + GAP), y: row * (HEIGHT + GAP), width: chartWidth, height: HEIGHT },
      chart,
    );
  });
  const size = [columns * (chartWidth + GAP) - GAP, Math.max(1, rows * (HEIGHT + GAP) - GAP)];
  return node("svg", { viewBox: `0 0 ${size.map(Math.ceil).join(" ")}`, class: "rates" }, drawn);
}

/** What the two curves of a chart are called, and how the words of the second begin. */
interface ChartPair {
  readonly names: readonly [string, string];
  readonly said: string;
}

const SETS: ChartPair = { names: ["first", "second"], said: "Second set" };
/** Both sides of a comparison. */
export const SIDES: ChartPair = { names: ["here", "there"], said: "There" };

export interface NamedChart {
  readonly name: RatesAxis["name"] | "throttle";
  readonly chart: Chart;
}

/** A chart for each axis, all with the same vertical scale, and one for the throttle. */
export function ratesCharts(
  { axes, throttle }: RatesPicture,
  second: RatesPicture | null,
  pair: ChartPair = SETS,
): NamedChart[] {
  const all = [...axes, ...(second?.axes ?? [])];
  const most = Math.max(1, ...all.flatMap(({ points }) => points.map(([, degPerS]) => degPerS)));
  const y = evenScale({ name: "turn", unit: "deg/s" }, 0, most, 4);
  const other = (name: string) => second?.axes.find((axis) => axis.name === name);
  const charts: NamedChart[] = axes.map((axis) => ({
    name: axis.name,
    chart: axisChart(axis, other(axis.name), y, pair),
  }));
  if (!throttle) return charts;
  return [...charts, { name: "throttle", chart: throttleChart(throttle, second?.throttle ?? null, pair) }];
}

type ThrottlePicture = NonNullable<RatesPicture["throttle"]>;

function throttleChart(throttle: ThrottlePicture, second: ThrottlePicture | null, pair: ChartPair): Chart {
  const limit = percent(throttle.limit);
  const other = second && !isSame(throttle.points, second.points) ? second : null;
  return {
    title: "throttle",
    words: [throttleInWords("Throttle", throttle), ...(other ? [throttleInWords(pair.said, other)] : [])].join(" "),
    ...ofStick("stick down"),
    y: evenScale({ name: "throttle", unit: "%" }, 0, 100, 4),
    lines: linesOf(inPercent(throttle.points), other && inPercent(other.points), pair),
    marks: limit < 100 ? [{ kind: "level", y: throttle.limit * 100, label: `limit ${limit} %` }] : [],
  };
}

function axisChart(axis: RatesAxis, second: RatesAxis | undefined, y: Scale, pair: ChartPair): Chart {
  const { name, points, endDegPerS, halfAtStick } = axis;
  const other = second && !isSame(points, second.points) ? second : null;
  const ends = [axis, ...(other ? [other] : [])].map((one) => Math.round(one.endDegPerS));
  const inDegrees = (curve: Curve): Curve => curve.map(([stick, degPerS]) => [inHundred(stick), degPerS] as const);
  return {
    title: `${name}, ${ends.join(" and ")} deg/s`,
    words: other ? `${rateInWords(axis)} ${pair.said}: ${rateInWords(other)}` : rateInWords(axis),
    ...ofStick("stick centred"),
    y,
    lines: linesOf(inDegrees(points), other && inDegrees(other.points), pair),
    marks:
      halfAtStick === null
        ? []
        : [
            {
              kind: "point",
              x: halfAtStick * 100,
              y: endDegPerS / 2,
              label: `half at ${percent(halfAtStick)} %`,
              side: "left",
            },
          ],
  };
}

type Curve = readonly (readonly [number, number])[];

/** A single line has no name; of two lines each has one. */
function linesOf(first: Curve, second: Curve | null, { names }: ChartPair): ChartLine[] {
  if (!second) return [{ name: "", points: first }];
  return [
    { name: names[0], points: first },
    { name: names[1], points: second },
  ];
}

function inPercent(points: Curve): Curve {
  return points.map(([stick, share]) => [inHundred(stick), share * 100] as const);
}

function isSame(a: Curve, b: Curve): boolean {
  return a.length === b.length && a.every(([x, y], index) => x === b[index]![0] && y === b[index]![1]);
}

function throttleInWords(name: string, { limit, points }: ThrottlePicture): string {
  return `${name}: ${limitInWords({ limit })}; ${middleInWords(points)}.`;
}

/** The throttle limit in words. */
export function limitInWords({ limit }: Pick<ThrottlePicture, "limit">): string {
  return percent(limit) < 100 ? `at most ${percent(limit)} %` : "no limit";
}

/** An axis in words. */
export function rateInWords({ name, endDegPerS, halfAtStick }: Omit<RatesAxis, "at">): string {
  const half = halfAtStick === null ? "" : `, half of it at ${percent(halfAtStick)} % of the stick`;
  return `${capital(name)}: ${Math.round(endDegPerS)} deg/s at full stick${half}.`;
}

function middleInWords(points: Curve): string {
  const half = valueAt({ name: "", points }, 0.5);
  return half === null ? "half stick is not known" : `half stick gives ${percent(half)} %`;
}

/** The lower scale for a stick, with its places in words. */
function ofStick(begin: string): Pick<Chart, "x" | "place" | "rows"> {
  const named: Readonly<Record<number, string>> = { 0: begin, 50: "half stick", 100: "full stick" };
  return {
    x: evenScale({ name: "stick", unit: "%" }, 0, 100, 4),
    place: (x) => named[Math.round(x * 10) / 10] ?? `${Number(x.toFixed(1))} % stick`,
    rows: Array.from({ length: 11 }, (_, index) => index * 10),
  };
}

/** Rounds off floating-point errors. */
function inHundred(share: number): number {
  return Number((share * 100).toPrecision(12));
}

function percent(share: number): number {
  return Math.round(share * 100);
}
