/** Computes where the elements of a page are, in whole cells from 0 at the top left. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { ElementSpec } from "../catalogue/specs.ts";
import type { Craft, Placed } from "../model/craft.ts";
import { oncePer } from "../model/memo.ts";
import { NAMED_GRIDS } from "../protocol/osd.ts";
import type { Axis } from "../syntax/value.ts";
import type { CellArea, Grid, Layout, Page, PlacedElement } from "./placed.ts";

/** The effective grid; null if the craft sets none, or one without a cell. Both pages share it. */
export function gridOf(craft: Craft): Grid | null {
  const value = craft.settings.get("osd")?.get("grid")?.value;
  if (value?.kind === "size")
    return value.columns >= 1 && value.rows >= 1 ? { columns: value.columns, rows: value.rows } : null;
  return value?.kind === "choice" ? (NAMED_GRIDS[value.word] ?? null) : null;
}

/** The grid that the viewer draws: its own size, or that of an analogue standard; null where neither is said. */
export function viewerGridOf(craft: Craft): Grid | null {
  const video = craft.settings.get("video");
  const own = video?.get("viewer-grid")?.value;
  // A line with a fault says that there is another grid, and not which.
  if (own === null) return null;
  if (own?.kind === "size") return own.columns >= 1 && own.rows >= 1 ? { columns: own.columns, rows: own.rows } : null;
  if (own?.kind === "choice") return gridOf(craft);
  const standard = video?.get("standard")?.value;
  return standard?.kind === "choice" ? (NAMED_GRIDS[standard.word] ?? null) : null;
}

/** Pixels of one character of the overlay chip MAX7456 (datasheet 19-0576 Rev 0, 8/07, p. 10): the size of a cell. */
export const CHARACTER_PIXELS = { width: 12, height: 18 } as const;

const layouts: Readonly<Record<Page, (craft: Craft, catalogue: Catalogue) => Layout | null>> = {
  osd: oncePer((craft: Craft, catalogue: Catalogue) => computeLayout(craft, catalogue, "osd")),
  "osd-second": oncePer((craft: Craft, catalogue: Catalogue) => computeLayout(craft, catalogue, "osd-second")),
};

/** The elements of a page on the effective grid; null without a grid. Elements with a fault are left out. */
export function layoutOf(craft: Craft, catalogue: Catalogue, page: Page): Layout | null {
  return layouts[page](craft, catalogue);
}

function computeLayout(craft: Craft, catalogue: Catalogue, page: Page): Layout | null {
  const grid = gridOf(craft);
  return grid && layoutOn(grid, craft, catalogue, page);
}

/** The elements of a page as they would be on a grid, each at the place that is written. */
export function layoutOn(grid: Grid, craft: Craft, catalogue: Catalogue, page: Page): Layout {
  const placed = placedOn(craft, page);
  return { grid, elements: [...placed.values()].flatMap((each) => placeElement(each, grid, craft, catalogue) ?? []) };
}

/** Everything that the script places on a page, elements with a fault included. */
export function placedOn(craft: Craft, page: Page): ReadonlyMap<string, Placed> {
  return page === "osd" ? craft.osd : craft.osdSecond;
}

/** The pages on which a craft places elements; the first page if it places none yet. */
export function pagesOf(craft: Craft): readonly Page[] {
  if (craft.osdSecond.size === 0) return ["osd"];
  return craft.osd.size === 0 ? ["osd-second"] : ["osd", "osd-second"];
}

function placeElement(placed: Placed, grid: Grid, craft: Craft, catalogue: Catalogue): PlacedElement | null {
  const element = catalogue.element(placed.name);
  if (!element || placed.value?.kind !== "cell") return null;
  const { width, height } = sizeOf(element, craft);
  return {
    name: placed.name,
    element,
    column: resolveAxis(placed.value.column, grid.columns, width),
    row: resolveAxis(placed.value.row, grid.rows, height),
    width,
    height,
    place: placed.value,
    source: placed.source,
  };
}

/** The size in cells of the widest text; for an element that shows a name, the length of that name, at least 1. */
export function sizeOf(element: ElementSpec, craft: Craft): { width: number; height: number } {
  const height = element.widest.length;
  if (element.textOf === undefined) return { width: Math.max(...element.widest.map((row) => [...row].length)), height };
  return { width: Math.max(1, [...nameText(element.textOf, craft)].length), height };
}

/** The name that an element shows: the craft's own, or the text of a setting. */
export function nameText(textOf: string, craft: Craft): string {
  if (textOf === "craft") return craft.name;
  const [section = "", name = ""] = textOf.split(".");
  const value = craft.settings.get(section)?.get(name)?.value;
  return value?.kind === "text" ? value.text : "";
}

/** The first cell on an axis: relative to its anchor, or counted from 0. May be off the grid. */
export function resolveAxis(axis: Axis, cells: number, size: number): number {
  switch (axis.anchor) {
    case null:
    case "left":
    case "top":
      return axis.offset;
    case "centre":
    case "middle":
      return Math.floor((cells - size) / 2) + axis.offset;
    case "right":
    case "bottom":
      return cells - size + axis.offset;
  }
}

/** The cells of an element, including those off the grid. */
export function elementArea({ column, row, width, height }: PlacedElement): CellArea {
  return { left: column, top: row, right: column + width - 1, bottom: row + height - 1 };
}

/** The cells that two areas share; null if they share none. */
export function sharedArea(a: CellArea, b: CellArea): CellArea | null {
  const left = Math.max(a.left, b.left);
  const right = Math.min(a.right, b.right);
  const top = Math.max(a.top, b.top);
  const bottom = Math.min(a.bottom, b.bottom);
  return left > right || top > bottom ? null : { left, top, right, bottom };
}

/** The area of a whole grid. */
export function gridArea({ columns, rows }: Grid): CellArea {
  return { left: 0, top: 0, right: columns - 1, bottom: rows - 1 };
}

/** Pairs of elements that share a cell of the grid, the later one second. Overlays (`overlapsNothing`) are in none. */
export function overlapsOf(layout: Layout): { first: PlacedElement; second: PlacedElement; shared: CellArea }[] {
  const grid = gridArea(layout.grid);
  const solid = layout.elements.flatMap((placed) => {
    const area = placed.element.overlapsNothing ? null : sharedArea(elementArea(placed), grid);
    return area ? [{ placed, area }] : [];
  });
  return solid.flatMap((second, i) =>
    solid.slice(0, i).flatMap((first) => {
      const shared = sharedArea(first.area, second.area);
      return shared ? [{ first: first.placed, second: second.placed, shared }] : [];
    }),
  );
}

/** Whether all cells of an element's widest text are on the grid. */
export function onGrid(placed: PlacedElement, grid: Grid): boolean {
  const area = elementArea(placed);
  return area.left >= 0 && area.top >= 0 && area.right < grid.columns && area.bottom < grid.rows;
}

/** Cells of an element that it shares with another or that are off the grid, as [column, row]. */
export function clashingCells(placed: PlacedElement, layout: Layout): (readonly [number, number])[] {
  const areas = placed.element.overlapsNothing
    ? []
    : layout.elements.filter((other) => other !== placed && !other.element.overlapsNothing).map(elementArea);
  const cells: (readonly [number, number])[] = [];
  const { left, right, top, bottom } = elementArea(placed);
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      const off = column < 0 || row < 0 || column >= layout.grid.columns || row >= layout.grid.rows;
      const taken = areas.some(
        (area) => column >= area.left && column <= area.right && row >= area.top && row <= area.bottom,
      );
      if (off || taken) cells.push([column, row]);
    }
  }
  return cells;
}
