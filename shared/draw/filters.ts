/** What the filters let through and how much later: the response of each chain, and the delay of every filter. */
import type { FilterPart, FiltersPicture } from "../protocol/numbers.ts";
import { drawChart } from "./chart.ts";
import { evenScale, ratioScale } from "./scale.ts";
import { node, rect, type SceneNode } from "./scene.ts";
import { text, widthOf } from "./writing.ts";

const chartHeight = 230;
const rowHeight = 20;
const SIZE = 12;
/** What lies under this is as good as gone. */
const LEAST_DB = -50;

/** The response as a chart, and under it a bar for the delay of each filter, longest for the most. */
export function drawFilters(picture: FiltersPicture, { width = 560 }: { readonly width?: number } = {}): SceneNode {
  const { chains, motors } = picture;
  const hz = chains.flatMap(({ response }) => response.map(([at]) => at)).filter((at) => at > 0);
  const [from, to] = hz.length > 0 ? [Math.min(...hz), Math.max(...hz)] : [10, 1000];
  const chart = drawChart(
    { x: 0, y: 0, width, height: chartHeight },
    {
      title: "What passes the filters",
      words: filtersInWords(picture),
      x: ratioScale({ name: "frequency", unit: "Hz" }, from, Math.max(to, from * 2)),
      y: evenScale({ name: "level", unit: "dB" }, LEAST_DB, 0, 5),
      lines: chains.map(({ name, response }) => ({ name, points: response })),
      marks: motors ? [{ kind: "band", fromX: motors.fromHz, toX: motors.toHz, label: "motors" }] : [],
    },
  );
  const { height, nodes } = drawDelays(picture, chartHeight + 10, width);
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(chartHeight + 10 + height)}`, class: "filters" }, [
    chart,
    ...nodes,
  ]);
}

function drawDelays(
  { parts, chains }: FiltersPicture,
  y: number,
  width: number,
): { height: number; nodes: SceneNode[] } {
  const labels = parts.map((part) => `${part.name}, ${part.what}`);
  const totals = chains.map(({ name }) => `all of the ${name}`);
  const left = Math.min(width * 0.55, Math.max(0, ...[...labels, ...totals].map((label) => widthOf(label, SIZE))) + 10);
  const room = Math.max(20, width - left - widthOf("00.00 ms", SIZE) - 10);
  const longest = Math.max(1e-9, ...parts.map(({ delayMs }) => delayMs), ...chains.map(({ delayMs }) => delayMs));
  const rows = [
    ...parts.map((part, index) => ({ label: labels[index]!, delayMs: part.delayMs, kind: "delay" })),
    ...chains.map(({ delayMs }, index) => ({ label: totals[index]!, delayMs, kind: "delay whole" })),
  ];
  const nodes = rows.map(({ label, delayMs, kind }, index) => {
    const top = y + 22 + index * rowHeight;
    const bar = { x: left, y: top + 4, width: Math.max(1, (delayMs / longest) * room), height: rowHeight - 8 };
    return node("g", { class: kind, role: "img", "aria-label": `${label}: ${inMs(delayMs)}` }, [
      text("delay-name", 0, top + 14, SIZE, label),
      rect("delay-bar", bar, 2),
      text("small", bar.x + bar.width + 6, top + 14, SIZE, inMs(delayMs)),
    ]);
  });
  const heading = text("chart-title", 0, y + 13, 13, rows.length > 0 ? "How much later it arrives" : "No filters");
  return { height: 26 + rows.length * rowHeight, nodes: [heading, ...nodes] };
}

/** The filters as one says them. */
export function filtersInWords({ chains, parts, motors }: FiltersPicture): string {
  const delays = chains.map(({ name, delayMs }) => `The ${name} arrives ${inMs(delayMs)} late at low frequency.`);
  const each = parts.map(({ name, what, delayMs }: FilterPart) => `${name}, ${what}: ${inMs(delayMs)}.`);
  const noise = motors ? [`The motors turn at ${Math.round(motors.fromHz)} to ${Math.round(motors.toHz)} Hz.`] : [];
  return [...delays, ...each, ...noise].join(" ");
}

function inMs(delayMs: number): string {
  return `${delayMs.toFixed(2)} ms`;
}
