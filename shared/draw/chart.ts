/** Small charts: lines over two scales, told apart by dashes, markers and their names, not by colour alone. */
import type { Scale } from "./scale.ts";
import { type Box, node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text, widthOf } from "./writing.ts";

export interface ChartLine {
  /** Written at the line's end; empty for a line that needs none, being alone. */
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** What is marked on a chart: a point with its drop lines, a band of the lower scale, a height. */
export type ChartMark =
  | { readonly kind: "point"; readonly x: number; readonly y: number; readonly label: string; readonly side: Side }
  | { readonly kind: "band"; readonly fromX: number; readonly toX: number; readonly label: string }
  | { readonly kind: "level"; readonly y: number; readonly label: string };

/** On which side of its point a label stands. */
export type Side = "left" | "right";

export interface Chart {
  readonly title: string;
  /** The whole of it in words, for those who do not see it. */
  readonly words: string;
  readonly x: Scale;
  readonly y: Scale;
  readonly lines: readonly ChartLine[];
  readonly marks?: readonly ChartMark[];
}

const SIZE = 11;
const TITLE_SIZE = 13;
const gap = 5;
/** Lines there can be on one chart: as many as can be told apart. */
export const MOST_LINES = 4;

/** The chart in a box, as a group that says in words what it shows. */
export function drawChart(box: Box, chart: Chart): SceneNode {
  const plot = plotIn(box, chart);
  const lines = chart.lines.slice(0, MOST_LINES);
  return node("g", { class: "chart", role: "img", "aria-label": chart.words }, [
    text("chart-title", plot.x, box.y + TITLE_SIZE, TITLE_SIZE, chart.title),
    ...bands(plot, chart),
    ...axes(plot, chart),
    ...levels(plot, chart),
    ...lines.flatMap((line, index) => drawLine(plot, chart, line, index)),
    ...endLabels(plot, chart, lines),
    ...points(plot, chart),
  ]);
}

function plotIn(box: Box, { x, y, lines }: Chart): Box {
  const ticks = Math.max(...y.ticks.map((tick) => widthOf(y.label(tick), SIZE)));
  const left = ticks + gap + 2;
  const right = Math.max(widthOf(x.label(x.to), SIZE) / 2, ...lines.map(({ name }) => nameRoom(name)));
  const top = TITLE_SIZE + SIZE + 3 * gap;
  const bottom = 2 * SIZE + 3 * gap;
  return { x: box.x + left, y: box.y + top, width: box.width - left - right, height: box.height - top - bottom };
}

function nameRoom(name: string): number {
  return name === "" ? 0 : widthOf(name, SIZE) + 2 * gap;
}

function placed(plot: Box, { x, y }: Chart, atX: number, atY: number): { readonly x: number; readonly y: number } {
  return { x: plot.x + x.share(atX) * plot.width, y: plot.y + (1 - y.share(atY)) * plot.height };
}

function axes(plot: Box, chart: Chart): SceneNode[] {
  const { x, y } = chart;
  const bottom = plot.y + plot.height;
  const across = y.ticks.map((tick) => placed(plot, chart, x.from, tick).y);
  const down = x.ticks.map((tick) => placed(plot, chart, tick, y.from).x);
  const grid = across.map((at) => `M${rounded(plot.x)} ${rounded(at)}h${rounded(plot.width)}`).join("");
  const notches = down.map((at) => `M${rounded(at)} ${rounded(bottom)}v4`).join("");
  return [
    path("chart-grid", grid),
    path(
      "chart-axis",
      `M${rounded(plot.x)} ${rounded(plot.y)}v${rounded(plot.height)}h${rounded(plot.width)}${notches}`,
    ),
    ...across.map((at, index) => text("small", plot.x - gap, at + SIZE * 0.36, SIZE, y.label(y.ticks[index]!), "end")),
    ...legible(down).map((index) =>
      text("small", down[index]!, bottom + SIZE + gap, SIZE, x.label(x.ticks[index]!), "middle"),
    ),
    text("small", plot.x, plot.y - gap - 2, SIZE, titled(y)),
    text("small", plot.x + plot.width, bottom + 2 * SIZE + 2 * gap, SIZE, titled(x), "end"),
  ];

  /** Ticks whose labels do not run into one another. */
  function legible(places: readonly number[]): number[] {
    let free = Number.NEGATIVE_INFINITY;
    return places.flatMap((at, index) => {
      const half = widthOf(x.label(x.ticks[index]!), SIZE) / 2;
      if (at - half < free) return [];
      free = at + half + gap;
      return [index];
    });
  }
}

function titled({ name, unit }: Scale): string {
  return unit === "" ? name : `${name}, ${unit}`;
}

function drawLine(plot: Box, chart: Chart, line: ChartLine, index: number): SceneNode[] {
  const runs = visible(line.points, chart).map((run) => run.map(([x, y]) => placed(plot, chart, x, y)));
  const d = runs.map((run) => `M${run.map(({ x, y }) => `${rounded(x)} ${rounded(y)}`).join("L")}`).join("");
  const alone = chart.lines.length === 1;
  const markers = alone ? [] : [path(`chart-marker series-${index}`, markersOn(runs.flat(), plot, index))];
  return [path(`chart-line series-${index}`, d), ...markers];
}

/** The runs of a line that lie between the ends of the upright scale, cut where they cross them. */
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

/** A dot, a square, a triangle or a diamond here and there on a line, so that it is known without its colour. */
function markersOn(run: readonly { readonly x: number; readonly y: number }[], plot: Box, index: number): string {
  const count = 5;
  const shapes = [
    (x: number, y: number) => `M${rounded(x - 3)} ${y}a3 3 0 0 1 6 0a3 3 0 0 1-6 0z`,
    (x: number, y: number) => `M${rounded(x - 2.7)} ${rounded(y - 2.7)}h5.4v5.4h-5.4z`,
    (x: number, y: number) => `M${x} ${rounded(y - 3.6)}l3.5 6.2h-7z`,
    (x: number, y: number) => `M${x} ${rounded(y - 3.8)}l3.8 3.8l-3.8 3.8l-3.8-3.8z`,
  ];
  return Array.from({ length: count }, (_, step) => {
    // Each line has its own places, so that markers do not hide one another where lines lie together.
    const wanted = plot.x + (plot.width * (step + 0.5 + index * 0.2)) / count;
    const after = run.findIndex(({ x }) => x >= wanted);
    const [a, b] = [run[after - 1], run[after]];
    if (!a || !b) return "";
    const y = a.y + ((b.y - a.y) * (wanted - a.x)) / (b.x - a.x || 1);
    return shapes[index % shapes.length]!(rounded(wanted), rounded(y));
  }).join("");
}

/** Names at the ends of their lines, moved apart where two would lie over one another. */
function endLabels(plot: Box, chart: Chart, lines: readonly ChartLine[]): SceneNode[] {
  const ends = lines
    .map((line, index) => ({ line, index, end: visible(line.points, chart).at(-1)?.at(-1) }))
    .flatMap(({ line, index, end }) =>
      line.name === "" || !end ? [] : [{ line, index, ...placed(plot, chart, ...end) }],
    )
    .sort((a, b) => a.y - b.y);
  let free = plot.y;
  return ends.map(({ line, index, y }) => {
    const at = Math.max(free, y + SIZE * 0.36);
    free = at + SIZE + 2;
    return text(`chart-name series-${index}`, plot.x + plot.width + gap, at, SIZE, line.name);
  });
}

function points(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "point") return [];
    const { x, y } = placed(plot, chart, mark.x, mark.y);
    const drops = `M${rounded(plot.x)} ${rounded(y)}H${rounded(x)}V${rounded(plot.y + plot.height)}`;
    const label =
      mark.side === "left"
        ? text("chart-label", x - 7, y - 4, SIZE, mark.label, "end")
        : text("chart-label", x + 7, y + SIZE, SIZE, mark.label);
    return [
      path("chart-drop", drops),
      path("chart-point", `M${rounded(x - 3.2)} ${rounded(y)}a3.2 3.2 0 0 1 6.4 0a3.2 3.2 0 0 1-6.4 0z`),
      label,
    ];
  });
}

function bands(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "band") return [];
    const inScale = (x: number) => Math.min(chart.x.to, Math.max(chart.x.from, x));
    const from = placed(plot, chart, inScale(mark.fromX), chart.y.from).x;
    const to = placed(plot, chart, inScale(mark.toX), chart.y.from).x;
    const edges = `M${rounded(from)} ${rounded(plot.y)}v${rounded(plot.height)}M${rounded(to)} ${rounded(plot.y)}v${rounded(plot.height)}`;
    const middle = Math.min((from + to) / 2, plot.x + plot.width - widthOf(mark.label, SIZE) / 2);
    return [
      rect("chart-band", { x: from, y: plot.y, width: to - from, height: plot.height }),
      path("chart-band-edge", edges),
      text("chart-label", middle, plot.y - gap - 2, SIZE, mark.label, "middle"),
    ];
  });
}

function levels(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "level") return [];
    const { y } = placed(plot, chart, chart.x.from, mark.y);
    return [
      path("chart-level", `M${rounded(plot.x)} ${rounded(y)}h${rounded(plot.width)}`),
      text("chart-label", plot.x + gap, y + SIZE + 1, SIZE, mark.label),
    ];
  });
}
