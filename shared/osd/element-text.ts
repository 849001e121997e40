/** Formats the texts of elements from the readings of one moment. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { ElementSpec } from "../catalogue/specs.ts";

/** Readings by name: a number in the reading's own unit, or words. */
export type Readings = ReadonlyMap<string, number | string>;

/**
 * The text of an element, a string for each row; empty for a figure. A row wider than the element is
 * replaced by the widest one of the element, as on a display with a fixed number of digits. If there is
 * nothing to show at this moment (`isBlank`), the text is the element's name, so that its place is
 * visible.
 */
export function sampleText(element: ElementSpec, readings: Readings, catalogue: Catalogue, width: number): string[] {
  if (element.drawn !== "text") return [];
  const rows = rowsOf(element, readings, catalogue);
  if (isEmpty(rows)) return [truncate(element.name.toUpperCase(), width)];
  return rows.map((row, i) => ([...row].length > width ? truncate(element.widest[i] ?? row, width) : row));
}

/** Whether the display shows nothing for an element at this moment; never true for a figure. */
export function isBlank(element: ElementSpec, readings: Readings, catalogue: Catalogue): boolean {
  return element.drawn === "text" && isEmpty(rowsOf(element, readings, catalogue));
}

function rowsOf(element: ElementSpec, readings: Readings, catalogue: Catalogue): string[] {
  return element.shows.map((template) => fillTemplate(template, readings, catalogue));
}

function isEmpty(rows: readonly string[]): boolean {
  return rows.every((row) => row.trim() === "");
}

function truncate(row: string, width: number): string {
  return [...row].slice(0, width).join("");
}

const BRACES = /\{([a-z-]+)(?:\.(\d)|:(clock))?\}/g;

/** Fills a template with readings (see `catalogue/readings.ts`). An unknown reading becomes “--”. */
export function fillTemplate(template: string, readings: Readings, catalogue: Catalogue): string {
  return template.replace(BRACES, (_, name: string, decimals: string | undefined, clock: string | undefined) => {
    const value = readings.get(name);
    if (value === undefined) return "--";
    if (typeof value === "string") return value;
    if (clock) return clockText(value, catalogue.readings.find((each) => each.name === name)?.unit === "min");
    return decimal(value, Number(decimals ?? 0));
  });
}

function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text;
}

/** A duration in s as m:ss, or one in minutes as h:mm: the arithmetic is the same. */
function clockText(value: number, inMinutes: boolean): string {
  const whole = inMinutes ? Math.floor(value) : Math.round(value);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
