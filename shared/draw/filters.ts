/** The filters' effect: the frequency response of each chain, and the delay of every filter. */
import type { FilterPart, FiltersPicture } from "../protocol/numbers.ts";
import { drawChart } from "./chart.ts";
import type { Chart } from "./plot.ts";
import { evenScale, preferredNumbers, ratioScale } from "./scale.ts";
import { node, rect, type SceneNode } from "./scene.ts";
import { text, textWidth } from "./writing.ts";

const CHART_HEIGHT = 230;
const ROW_HEIGHT = 20;
const SIZE = 12;
/** Below this level, a signal is practically removed. */
const LEAST_DB = -50;

/** The response as a chart, and below it a bar for the delay of each filter. */
export function drawFilters(picture: FiltersPicture, { width = 560 }: { readonly width?: number } = {}): SceneNode {
  const chart = drawChart({ x: 0, y: 0, width, height: CHART_HEIGHT }, responseChart(picture));
  const { height, nodes } = delayRows(picture, CHART_HEIGHT + 32, width);
  const title = picture.parts.length > 0 ? "How much later it arrives" : "No filters";
  return node(
    "svg",
    { viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(CHART_HEIGHT + 36 + height)}`, class: "filters" },
    [chart, text("chart-title", 0, CHART_HEIGHT + 23, 13, title), ...nodes],
  );
}

/** The frequency response, with the band of the motors and the places of their notches at full throttle. */
export function responseChart(picture: FiltersPicture): Chart {
  const { chains, motors, notches } = picture;
  const hz = chains.flatMap(({ response }) => response.map(([at]) => at)).filter((at) => at > 0);
  const [from, to] = hz.length > 0 ? [Math.min(...hz), Math.max(...hz)] : [10, 1000];
  return {
    title: "What passes the filters",
    words: responseInWords(picture, from, to),
    x: ratioScale({ name: "frequency", unit: "Hz" }, from, Math.max(to, from * 2)),
    y: evenScale({ name: "level", unit: "dB" }, LEAST_DB, 0, 5),
    digits: 1,
    stops: preferredNumbers(from, to),
    lines: chains.map(({ name, response }) => ({ name, points: response })),
    marks: [
      ...(motors ? [{ kind: "band" as const, fromX: motors.fromHz, toX: motors.toHz, label: "motors" }] : []),
      ...(notches ? [{ kind: "places" as const, xs: notches.fullHz }] : []),
    ],
  };
}

function responseInWords({ motors, notches }: FiltersPicture, from: number, to: number): string {
  const about = `From ${Math.round(from)} to ${Math.round(to)} Hz.`;
  return [about, ...motorsInWords(motors), ...(notches ? notchesInWords(notches) : [])].join(" ");
}

function motorsInWords(motors: FiltersPicture["motors"]): string[] {
  return motors ? [`The motors turn at ${Math.round(motors.fromHz)} to ${Math.round(motors.toHz)} Hz.`] : [];
}

/** The delay bars alone. */
export function drawDelays(picture: FiltersPicture, { width = 560 }: { readonly width?: number } = {}): SceneNode {
  const { height, nodes } = delayRows(picture, 0, width);
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`, class: "filters" }, nodes);
}

function delayRows(
  { parts, chains }: FiltersPicture,
  y: number,
  width: number,
): { readonly height: number; readonly nodes: readonly SceneNode[] } {
  const rows = [
    ...parts.map(({ name, what, delayMs }) => ({ name, what, delayMs, kind: "delay" })),
    ...chains.map(({ name, delayMs }) => ({ name: `all of the ${name}`, what: "", delayMs, kind: "delay whole" })),
  ];
  const longest = Math.max(1e-9, ...rows.map(({ delayMs }) => delayMs));
  const left = Math.max(0, ...rows.map((row) => textWidth(labelOf(row), SIZE))) + 10;
  // If there is no room for names and bars side by side, each bar goes below its name.
  const draw = left > width * 0.6 ? stackedRow : evenRow(left);
  let top = y;
  const nodes = rows.map((row, index) => {
    const { height, children } = draw(row, top, width, row.delayMs / longest);
    const reach = rect("reach", { x: -4, y: top, width: width + 8, height: height - 2 });
    top += height;
    const label = `${labelOf(row)}: ${inMs(row.delayMs)}`;
    return node("g", { class: row.kind, role: "img", "aria-label": label, "data-part": index }, [reach, ...children]);
  });
  return { height: top - y, nodes };
}

interface DelayRow {
  readonly name: string;
  readonly what: string;
  readonly delayMs: number;
}
type DrawRow = (
  row: DelayRow,
  top: number,
  width: number,
  share: number,
) => { readonly height: number; readonly children: readonly SceneNode[] };

function evenRow(left: number): DrawRow {
  return (row, top, width, share) => {
    const room = Math.max(20, width - left - textWidth("00.00 ms", SIZE) - 10);
    const bar = { x: left, y: top + 4, width: Math.max(1, share * room), height: ROW_HEIGHT - 8 };
    const children = [
      text("delay-name", 0, top + 14, SIZE, labelOf(row)),
      rect("delay-bar", bar, 2),
      text("small", bar.x + bar.width + 6, top + 14, SIZE, inMs(row.delayMs)),
    ];
    return { height: ROW_HEIGHT, children };
  };
}

const stackedRow: DrawRow = ({ name, what, delayMs }, top, width, share) => {
  const label = what === "" ? [] : [text("small", 0, top + 28, SIZE - 1, what)];
  const barTop = top + (what === "" ? 19 : 33);
  const children = [
    text("delay-name", 0, top + 14, SIZE, name),
    text("small", width, top + 14, SIZE, inMs(delayMs), "end"),
    ...label,
    rect("delay-bar", { x: 0, y: barTop, width: Math.max(1, share * width), height: 7 }, 2),
  ];
  return { height: barTop - top + 13, children };
};

function labelOf({ name, what }: DelayRow): string {
  return what === "" ? name : `${name}, ${what}`;
}

/** The filters in words. */
export function filtersInWords({ chains, parts, motors, notches }: FiltersPicture): string {
  const delays = chains.map(({ name, delayMs }) => `The ${name} arrives ${inMs(delayMs)} late at low frequency.`);
  const each = parts.map(({ name, what, delayMs }: FilterPart) => `${name}, ${what}: ${inMs(delayMs)}.`);
  const stand = notches ? notchesInWords(notches) : [];
  return [...delays, ...each, ...motorsInWords(motors), ...stand].join(" ");
}

/** The frequencies of the motor notches, in the hover and at full throttle, in words. */
export function notchesInWords({ hoverHz, fullHz }: NonNullable<FiltersPicture["notches"]>): string[] {
  const at = (hz: readonly number[]) => `${hz.map(Math.round).join(", ")} Hz`;
  return [
    ...(hoverHz.length > 0 ? [`In the hover the motor notches stand at ${at(hoverHz)}.`] : []),
    ...(fullHz.length > 0 ? [`At full throttle the motor notches stand at ${at(fullHz)}.`] : []),
  ];
}

function inMs(delayMs: number): string {
  return `${delayMs.toFixed(2)} ms`;
}
