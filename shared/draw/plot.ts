/** What a chart is, and where on it things lie. */
import type { Point } from "./outline.ts";
import type { Scale } from "./scale.ts";
import type { Box } from "./scene.ts";
import { textWidth } from "./writing.ts";

export interface ChartLine {
  /** Written at the line's end; empty for a line that needs none, being alone. */
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** What is marked on a chart: a point with its drop lines, a band or places of the lower scale, a height, where it is read. */
export type ChartMark =
  | { readonly kind: "point"; readonly x: number; readonly y: number; readonly label: string; readonly side: Side }
  | { readonly kind: "band"; readonly fromX: number; readonly toX: number; readonly label: string }
  | { readonly kind: "level"; readonly y: number; readonly label: string }
  | { readonly kind: "places"; readonly xs: readonly number[] }
  | { readonly kind: "reading"; readonly x: number };

/** On which side of its point a label stands. */
export type Side = "left" | "right";

export interface Chart {
  /** Empty where the page says it. */
  readonly title: string;
  /** The whole of it in words, for those who do not see it. */
  readonly words: string;
  readonly x: Scale;
  readonly y: Scale;
  /** A place on the lower scale as one says it; without, its number and unit. */
  place?(x: number): string;
  /** Decimals of a value that is read off. */
  readonly digits?: number;
  /** Places of the lower scale where the chart is read off, without its dips; without, points of its first line. */
  readonly stops?: readonly number[];
  /** Places of the lower scale that a table has a row for; without, its ticks. */
  readonly rows?: readonly number[];
  readonly lines: readonly ChartLine[];
  readonly marks?: readonly ChartMark[];
}

export const LABEL_SIZE = 11;
export const TITLE_SIZE = 13;
export const CHART_GAP = 5;
/** Faces differ: words that are cut off are worse than a plot that is a little smaller. */
const ROOM = 1.12;

/** Where the plot itself lies in the chart's box, clear of all that is written round it. */
export function plotIn(box: Box, { title, x, y, lines }: Chart): Box {
  const ticks = Math.max(...y.ticks.map((tick) => textWidth(y.label(tick), LABEL_SIZE))) * ROOM;
  const left = ticks + CHART_GAP + 2;
  const right = Math.max(textWidth(x.label(x.to), LABEL_SIZE) / 2, ...lines.map(({ name }) => nameRoom(name)));
  const top = (title === "" ? 0 : TITLE_SIZE + CHART_GAP) + LABEL_SIZE + 2 * CHART_GAP;
  const bottom = 2 * LABEL_SIZE + 3 * CHART_GAP;
  return { x: box.x + left, y: box.y + top, width: box.width - left - right, height: box.height - top - bottom };
}

function nameRoom(name: string): number {
  return name === "" ? 0 : textWidth(name, LABEL_SIZE) * ROOM + 2 * CHART_GAP;
}

/** Where a point of both scales lies. */
export function plotPoint(plot: Box, { x, y }: Chart, atX: number, atY: number): Point {
  return { x: plot.x + x.share(atX) * plot.width, y: plot.y + (1 - y.share(atY)) * plot.height };
}

/** A scale's name with its unit. */
export function scaleTitle({ name, unit }: Scale): string {
  return unit === "" ? name : `${name}, ${unit}`;
}
