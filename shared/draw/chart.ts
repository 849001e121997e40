/** Small charts: lines over two scales, distinguished by dashes, markers and names, not by colour alone. */
import { apart } from "./apart.ts";
import { drawBands, drawLevels, drawPlaces, drawPoints, drawReading } from "./chart-marks.ts";
import {
  CHART_GAP,
  type Chart,
  type ChartLine,
  LABEL_SIZE,
  plotIn,
  plotPoint,
  scaleTitle,
  TITLE_SIZE,
} from "./plot.ts";
import type { Scale } from "./scale.ts";
import { type Box, node, path, rounded, type SceneNode } from "./scene.ts";
import { text, textWidth } from "./writing.ts";

/** The most lines of one chart: as many as can be distinguished. */
const MOST_LINES = 4;

/** Draws the chart in a box, as a group whose label says in words what it shows. */
export function drawChart(box: Box, chart: Chart): SceneNode {
  const plot = plotIn(box, chart);
  const lines = chart.lines.slice(0, MOST_LINES);
  return node("g", { class: "chart", role: "img", "aria-label": chart.words }, [
    ...(chart.title === "" ? [] : [text("chart-title", plot.x, box.y + TITLE_SIZE, TITLE_SIZE, chart.title)]),
    ...drawBands(plot, chart),
    ...axes(plot, chart),
    ...lines.flatMap((line, index) => drawLine(plot, chart, line, index)),
    ...endLabels(plot, chart, lines),
    ...drawPlaces(plot, chart),
    ...drawReading(plot, chart),
    // Last, as their labels interrupt whatever crosses them.
    ...drawLevels(plot, chart),
    ...drawPoints(plot, chart),
  ]);
}

function axes(plot: Box, chart: Chart): SceneNode[] {
  const { x, y } = chart;
  const bottom = plot.y + plot.height;
  const across = y.ticks.map((tick) => plotPoint(plot, chart, x.from, tick).y);
  const down = x.ticks.map((tick) => plotPoint(plot, chart, tick, y.from).x);
  const grid = across.map((at) => `M${rounded(plot.x)} ${rounded(at)}h${rounded(plot.width)}`).join("");
  const notches = down.map((at) => `M${rounded(at)} ${rounded(bottom)}v4`).join("");
  return [
    path("chart-grid", grid),
    path(
      "chart-axis",
      `M${rounded(plot.x)} ${rounded(plot.y)}v${rounded(plot.height)}h${rounded(plot.width)}${notches}`,
    ),
    ...across.map((at, index) =>
      text("small", plot.x - CHART_GAP, at + LABEL_SIZE * 0.36, LABEL_SIZE, y.label(y.ticks[index]!), "end"),
    ),
    ...legible(down).map((index) =>
      text("small", down[index]!, bottom + LABEL_SIZE + CHART_GAP, LABEL_SIZE, x.label(x.ticks[index]!), "middle"),
    ),
    text("small", plot.x, plot.y - CHART_GAP - 2, LABEL_SIZE, scaleTitle(y)),
    text("small", plot.x + plot.width, bottom + 2 * LABEL_SIZE + 2 * CHART_GAP, LABEL_SIZE, scaleTitle(x), "end"),
  ];

  /** The ticks whose labels do not overlap; whole powers of ten take precedence. */
  function legible(places: readonly number[]): number[] {
    const half = (index: number) => textWidth(x.label(x.ticks[index]!), LABEL_SIZE) / 2;
    const isPower = (index: number) => Number.isInteger(Math.log10(x.ticks[index]!));
    const order = [...places.keys()].sort((a, b) => Number(isPower(b)) - Number(isPower(a)) || a - b);
    const taken: number[] = [];
    for (const index of order) {
      const hits = (other: number) => Math.abs(places[index]! - places[other]!) < half(index) + half(other) + CHART_GAP;
      if (!taken.some(hits)) taken.push(index);
    }
    return taken.sort((a, b) => a - b);
  }
}

function drawLine(plot: Box, chart: Chart, line: ChartLine, index: number): SceneNode[] {
  const runs = visible(line.points, chart).map((run) => run.map(([x, y]) => plotPoint(plot, chart, x, y)));
  const d = runs.map((run) => `M${run.map(({ x, y }) => `${rounded(x)} ${rounded(y)}`).join("L")}`).join("");
  const alone = chart.lines.length === 1;
  const markers = alone ? [] : [path(`chart-marker series-${index}`, markersOn(runs.flat(), plot, index))];
  return [path(`chart-line series-${index}`, d), ...markers];
}

/** The parts of a line that are within both scales, cut at the ends of the vertical scale. */
function visible(points: ChartLine["points"], { x, y }: Chart): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = [];
  let run: (readonly [number, number])[] = [];
  const end = () => {
    if (run.length > 1) runs.push(run);
    run = [];
  };
  const inside = ([atX, atY]: readonly [number, number]) =>
    atX >= x.from && atX <= x.to && atY >= y.from && atY <= y.to;
  for (const [index, point] of points.entries()) {
    const before = points[index - 1];
    const isIn = inside(point);
    if (before && isIn !== inside(before)) run.push(crossing(before, point, y));
    if (isIn) run.push(point);
    else end();
  }
  end();
  return runs;
}

function crossing(a: readonly [number, number], b: readonly [number, number], y: Scale): readonly [number, number] {
  const outer =
    Number.isFinite(a[1]) && Number.isFinite(b[1]) ? (Math.min(a[1], b[1]) < y.from ? y.from : y.to) : y.from;
  const share = Number.isFinite(b[1] - a[1]) && b[1] !== a[1] ? (outer - a[1]) / (b[1] - a[1]) : 0;
  return [a[0] + (b[0] - a[0]) * Math.min(1, Math.max(0, share)), outer];
}

/** Dots, squares, triangles or diamonds along a line, so that it is recognised without its colour. */
function markersOn(run: readonly { readonly x: number; readonly y: number }[], plot: Box, index: number): string {
  const count = 5;
  const shapes = [
    (x: number, y: number) => `M${rounded(x - 3)} ${y}a3 3 0 0 1 6 0a3 3 0 0 1-6 0z`,
    (x: number, y: number) => `M${rounded(x - 2.7)} ${rounded(y - 2.7)}h5.4v5.4h-5.4z`,
    (x: number, y: number) => `M${x} ${rounded(y - 3.6)}l3.5 6.2h-7z`,
    (x: number, y: number) => `M${x} ${rounded(y - 3.8)}l3.8 3.8l-3.8 3.8l-3.8-3.8z`,
  ];
  return Array.from({ length: count }, (_, step) => {
    // Each line has markers at other places, so that they do not hide one another if lines coincide.
    const markerX = plot.x + (plot.width * (step + 0.5 + index * 0.2)) / count;
    const after = run.findIndex(({ x }) => x >= markerX);
    const [a, b] = [run[after - 1], run[after]];
    if (!a || !b) return "";
    const y = a.y + ((b.y - a.y) * (markerX - a.x)) / (b.x - a.x || 1);
    return shapes[index % shapes.length]!(rounded(markerX), rounded(y));
  }).join("");
}

/** Names at the ends of their lines, moved apart if they would overlap. */
function endLabels(plot: Box, chart: Chart, lines: readonly ChartLine[]): SceneNode[] {
  const ends = lines
    .map((line, index) => ({ line, index, end: visible(line.points, chart).at(-1)?.at(-1) }))
    .flatMap(({ line, index, end }) =>
      line.name === "" || !end ? [] : [{ line, index, ...plotPoint(plot, chart, ...end) }],
    );
  const ys = apart(
    ends.map(({ y }) => y + LABEL_SIZE * 0.36),
    LABEL_SIZE + 2,
    { from: plot.y, to: plot.y + plot.height },
  );
  return ends.map(({ line, index }, at) =>
    text(`chart-name series-${index}`, plot.x + plot.width + CHART_GAP, ys[at]!, LABEL_SIZE, line.name),
  );
}
