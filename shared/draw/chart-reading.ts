/** Reading a chart: the stops of the arrow keys, the values there in words, and the whole chart as a table. */
import { type Chart, type ChartLine, scaleTitle } from "./plot.ts";
import type { Scale } from "./scale.ts";

/** About how many stops a chart has for the arrow keys. */
const MOST_STOPS = 40;

/** The line's value at `x`, interpolated linearly; null beyond its ends. */
export function valueAt({ points }: ChartLine, x: number): number | null {
  const after = points.findIndex(([at]) => at >= x);
  const [a, b] = [points[after - 1], points[after]];
  if (!b || (!a && b[0] !== x)) return null;
  if (!a || b[0] === x) return b[1];
  return a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
}

/** The stops of the arrow keys: evenly along the scale or as the chart says, and at every dip. */
export function stopsOf({ x, lines, stops }: Chart): number[] {
  const points = lines[0]?.points ?? [];
  const all = new Set([...(stops ?? spread(points, x)), ...dipsOf(points)]);
  return [...all].sort((a, b) => a - b);
}

/** At most about `MOST_STOPS` of the points, evenly spread, including the last. */
function spread(points: ChartLine["points"], x: Scale): number[] {
  let next = 0;
  return points.flatMap(([at], index) => {
    if (x.share(at) < next - 1e-9 && index < points.length - 1) return [];
    while (next <= x.share(at) + 1e-9) next += 1 / MOST_STOPS;
    return [at];
  });
}

/** The points that are lower than both of their neighbours. */
function dipsOf(points: ChartLine["points"]): number[] {
  return points.flatMap(([at, value], index) => {
    const [before, after] = [points[index - 1]?.[1], points[index + 1]?.[1]];
    return before !== undefined && after !== undefined && value < before && value < after ? [at] : [];
  });
}

/** The stop nearest to a share of the scale, from 0 to 1. */
export function nearestStop(chart: Chart, share: number): number {
  const stops = stopsOf(chart);
  const away = (at: number) => Math.abs(chart.x.share(at) - share);
  return stops.reduce((best, at) => (away(at) < away(best) ? at : best), stops[0] ?? chart.x.from);
}

/** The reading in words: “half stick: 260 deg/s”; if there are several lines, each with its name. */
export function readingInWords(chart: Chart, x: number): string {
  const values = chart.lines.map((line) => {
    const text = valueInWords(chart, line, x);
    return line.name === "" ? text : `${line.name} ${text}`;
  });
  return `${stopInWords(chart, x)}: ${values.join(", ")}`;
}

function stopInWords(chart: Chart, x: number): string {
  return chart.place?.(x) ?? `${round(x, 0)} ${chart.x.unit}`;
}

function valueInWords(chart: Chart, line: ChartLine, x: number): string {
  const text = numberInWords(chart, line, x);
  return /\d/.test(text) ? `${text} ${chart.y.unit}` : text;
}

function numberInWords({ y, digits = 0 }: Chart, line: ChartLine, x: number): string {
  const value = valueAt(line, x);
  if (value === null) return "not known";
  // Far below the end of a decibel scale, the level is practically zero.
  return y.unit === "dB" && value <= 2 * y.from ? "nothing" : round(value, digits);
}

/** Rounds; adding 0 turns -0 into 0. */
function round(value: number, digits: number): string {
  return (Number(value.toFixed(digits)) + 0).toFixed(digits);
}

export interface ReadTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The chart as a table: a row for each of its places, and for every dip of its first line. */
export function chartTable(chart: Chart): ReadTable {
  const dips = dipsOf(chart.lines[0]?.points ?? []);
  const places = [...new Set([...(chart.rows ?? chart.x.ticks), ...dips])].sort((a, b) => a - b);
  return {
    head: [
      scaleTitle(chart.x),
      ...chart.lines.map(({ name }) => (name === "" ? scaleTitle(chart.y) : `${name}, ${chart.y.unit}`)),
    ],
    rows: places.map((x) => [round(x, 0), ...chart.lines.map((line) => numberInWords(chart, line, x))]),
  };
}
