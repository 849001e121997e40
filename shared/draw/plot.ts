/** The data of a chart, and the places of values on it. */
import type { Point } from "./outline.ts";
import type { Scale } from "./scale.ts";
import type { Box } from "./scene.ts";
import { textWidth } from "./writing.ts";

export interface ChartLine {
  /** Written at the line's end; empty if it is the only line. */
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** What is marked on a chart: a point with drop lines, a band or places of the lower scale, a level, or where it is read. */
export type ChartMark =
  | { readonly kind: "point"; readonly x: number; readonly y: number; readonly label: string; readonly side: Side }
  | { readonly kind: "band"; readonly fromX: number; readonly toX: number; readonly label: string }
  | { readonly kind: "level"; readonly y: number; readonly label: string }
  | { readonly kind: "places"; readonly xs: readonly number[] }
  | { readonly kind: "reading"; readonly x: number };

/** The side of its point on which a label is. */
export type Side = "left" | "right";

export interface Chart {
  /** Empty if the page has a heading of its own. */
  readonly title: string;
  /** The whole chart in words, for readers who do not see it. */
  readonly words: string;
  readonly x: Scale;
  readonly y: Scale;
  /** A place on the lower scale in words; without it, its number and unit. */
  place?(x: number): string;
  /** Decimals of a reading. */
  readonly digits?: number;
  /** Stops on the lower scale for the arrow keys, besides dips; without it, points of the first line. */
  readonly stops?: readonly number[];
  /** Places of the lower scale with a row in the table; without it, its ticks. */
  readonly rows?: readonly number[];
  readonly lines: readonly ChartLine[];
  readonly marks?: readonly ChartMark[];
}

export const LABEL_SIZE = 11;
export const TITLE_SIZE = 13;
export const CHART_GAP = 5;
/** Fonts differ in width; a slightly smaller plot is better than a truncated label. */
const ROOM = 1.12;

/** The box of the plot itself, inside the chart's labels. */
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

/** The place of a point of both scales in the drawing. */
export function plotPoint(plot: Box, { x, y }: Chart, atX: number, atY: number): Point {
  return { x: plot.x + x.share(atX) * plot.width, y: plot.y + (1 - y.share(atY)) * plot.height };
}

/** A scale's name with its unit. */
export function scaleTitle({ name, unit }: Scale): string {
  return unit === "" ? name : `${name}, ${unit}`;
}
