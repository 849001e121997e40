/** The marks of a chart: points, bands, levels, places and the reading. */
import { valueAt } from "./chart-reading.ts";
import { CHART_GAP, type Chart, LABEL_SIZE, plotPoint } from "./plot.ts";
import { type Box, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text, textWidth } from "./writing.ts";

/** Draws points with drop lines to both scales. */
export function drawPoints(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "point") return [];
    const { x, y } = plotPoint(plot, chart, mark.x, mark.y);
    const drops = `M${rounded(plot.x)} ${rounded(y)}H${rounded(x)}V${rounded(plot.y + plot.height)}`;
    const label =
      mark.side === "left" ? labelAt(x - 7, y - 4, mark.label, "end") : labelAt(x + 7, y + LABEL_SIZE, mark.label);
    return [
      path("chart-drop", drops),
      path("chart-point", `M${rounded(x - 3.2)} ${rounded(y)}a3.2 3.2 0 0 1 6.4 0a3.2 3.2 0 0 1-6.4 0z`),
      ...label,
    ];
  });
}

/** A label inside the plot, on a plate of the page's colour: a line that crosses it is interrupted, also between words. */
function labelAt(x: number, y: number, label: string, anchor: "start" | "end" = "start"): SceneNode[] {
  const width = textWidth(label, LABEL_SIZE);
  const left = anchor === "start" ? x : x - width;
  return [
    rect("label-plate", { x: left, y: y - LABEL_SIZE + 1.5, width, height: LABEL_SIZE + 1 }),
    text("chart-label", x, y, LABEL_SIZE, label, anchor),
  ];
}

/** Draws bands of the lower scale. */
export function drawBands(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "band") return [];
    const inScale = (x: number) => Math.min(chart.x.to, Math.max(chart.x.from, x));
    const from = plotPoint(plot, chart, inScale(mark.fromX), chart.y.from).x;
    const to = plotPoint(plot, chart, inScale(mark.toX), chart.y.from).x;
    const edges = `M${rounded(from)} ${rounded(plot.y)}v${rounded(plot.height)}M${rounded(to)} ${rounded(plot.y)}v${rounded(plot.height)}`;
    const middle = Math.min((from + to) / 2, plot.x + plot.width - textWidth(mark.label, LABEL_SIZE) / 2);
    return [
      rect("chart-band", { x: from, y: plot.y, width: to - from, height: plot.height }),
      path("chart-band-edge", edges),
      text("chart-label", middle, plot.y - CHART_GAP - 2, LABEL_SIZE, mark.label, "middle"),
    ];
  });
}

/** Draws levels across the whole plot. */
export function drawLevels(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "level") return [];
    const { y } = plotPoint(plot, chart, chart.x.from, mark.y);
    return [
      path("chart-level", `M${rounded(plot.x)} ${rounded(y)}h${rounded(plot.width)}`),
      ...labelAt(plot.x + CHART_GAP, y + LABEL_SIZE + 1, mark.label),
    ];
  });
}

/** Draws places of the lower scale as small wedges on it. */
export function drawPlaces(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "places") return [];
    const wedges = mark.xs
      .filter((x) => x >= chart.x.from && x <= chart.x.to)
      .map((x) => plotPoint(plot, chart, x, chart.y.from))
      .map(({ x, y }) => `M${rounded(x - 4)} ${rounded(y - 8)}h8l-4 8z`);
    return wedges.length > 0 ? [path("chart-place", wedges.join(""))] : [];
  });
}

/** Draws where the chart is read: a vertical line, and a ring on each line of the chart that is within the scale there. */
export function drawReading(plot: Box, chart: Chart): SceneNode[] {
  return (chart.marks ?? []).flatMap((mark) => {
    if (mark.kind !== "reading") return [];
    const at = plotPoint(plot, chart, mark.x, chart.y.from).x;
    const rings = chart.lines.flatMap((line) => {
      const y = valueAt(line, mark.x);
      if (y === null || y < chart.y.from || y > chart.y.to) return [];
      return [
        `M${rounded(at - 4.5)} ${rounded(plotPoint(plot, chart, mark.x, y).y)}a4.5 4.5 0 0 1 9 0a4.5 4.5 0 0 1-9 0z`,
      ];
    });
    return [
      path("chart-reading", `M${rounded(at)} ${rounded(plot.y)}v${rounded(plot.height)}`),
      path("chart-ring", rings.join("")),
    ];
  });
}
