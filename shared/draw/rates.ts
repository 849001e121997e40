/** How fast the craft turns for where the stick is: a small chart for each axis, all on one scale, and the throttle. */
import type { RatesAxis, RatesPicture } from "../protocol/numbers.ts";
import { type Chart, drawChart } from "./chart.ts";
import { evenScale, type Scale } from "./scale.ts";
import { node, type SceneNode } from "./scene.ts";

const narrowest = 168;
const height = 190;
const gap = 14;

/** All charts as one SVG, in as many columns as the width allows. */
export function drawRates(picture: RatesPicture, { width = 720 }: { readonly width?: number } = {}): SceneNode {
  const charts = chartsOf(picture);
  const columns = Math.max(1, Math.min(charts.length, Math.floor((width + gap) / (narrowest + gap))));
  const chartWidth = Math.min(260, (Math.max(width, narrowest) - gap * (columns - 1)) / columns);
  const rows = Math.ceil(charts.length / columns);
  const drawn = charts.map((chart, index) => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    return drawChart({ x: column * (chartWidth + gap), y: row * (height + gap), width: chartWidth, height }, chart);
  });
  const size = [columns * (chartWidth + gap) - gap, Math.max(1, rows * (height + gap) - gap)];
  return node("svg", { viewBox: `0 0 ${size.map(Math.ceil).join(" ")}`, class: "rates" }, drawn);
}

function chartsOf({ axes, throttle }: RatesPicture): Chart[] {
  const most = Math.max(1, ...axes.flatMap(({ points }) => points.map(([, degPerS]) => degPerS)));
  const y = evenScale({ name: "turn", unit: "deg/s" }, 0, most, 4);
  const charts = axes.map((axis) => axisChart(axis, y));
  if (!throttle) return charts;
  const limit = percent(throttle.limit);
  return [
    ...charts,
    {
      title: "throttle",
      words: `Throttle: ${limit < 100 ? `at most ${limit} %` : "no limit"}; ${middleInWords(throttle.points)}.`,
      x: stickScale(),
      y: evenScale({ name: "throttle", unit: "%" }, 0, 100, 4),
      lines: [{ name: "", points: throttle.points.map(([stick, share]) => [stick * 100, share * 100] as const) }],
      marks: limit < 100 ? [{ kind: "level", y: throttle.limit * 100, label: `limit ${limit} %` }] : [],
    },
  ];
}

function axisChart({ name, points, endDegPerS, halfAtStick }: RatesAxis, y: Scale): Chart {
  const half = halfAtStick === null ? null : percent(halfAtStick);
  return {
    title: `${name}, ${Math.round(endDegPerS)} deg/s`,
    words: rateInWords({ name, points, endDegPerS, halfAtStick }),
    x: stickScale(),
    y,
    lines: [{ name: "", points: points.map(([stick, degPerS]) => [stick * 100, degPerS] as const) }],
    marks:
      half === null
        ? []
        : [{ kind: "point", x: halfAtStick! * 100, y: endDegPerS / 2, label: `half at ${half} %`, side: "left" }],
  };
}

/** An axis as one says it. */
export function rateInWords({ name, endDegPerS, halfAtStick }: Omit<RatesAxis, "at">): string {
  const half = halfAtStick === null ? "" : `, half of it at ${percent(halfAtStick)} % of the stick`;
  return `${capital(name)}: ${Math.round(endDegPerS)} deg/s at full stick${half}.`;
}

function middleInWords(points: readonly (readonly [number, number])[]): string {
  const after = points.findIndex(([stick]) => stick >= 0.5);
  const [a, b] = [points[after - 1] ?? points[0], points[after]];
  if (!a || !b) return "half stick is not known";
  const share = b[0] === a[0] ? 0 : (0.5 - a[0]) / (b[0] - a[0]);
  return `half stick gives ${percent(a[1] + (b[1] - a[1]) * share)} %`;
}

function stickScale(): Scale {
  return evenScale({ name: "stick", unit: "%" }, 0, 100, 4);
}

function percent(share: number): number {
  return Math.round(share * 100);
}

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1);
}
