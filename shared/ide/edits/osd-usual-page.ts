/** The elements that most pilots fly by, placed on a craft's grid as far as the craft can show them. */
import type { ElementSpec, Having } from "../../catalogue/specs.ts";
import type { CellBox } from "../../draw/moving.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { freeCells } from "../../osd/free-cells.ts";
import { gridArea, resolveAxis, sharedArea, sizeOf } from "../../osd/layout.ts";
import type { Grid } from "../../osd/placed.ts";
import { centralCells, contains, isAnalogue, safeCellsOf } from "../../osd/safe-area.ts";
import { MOST_CELLS, type OsdPage } from "../../protocol/osd.ts";
import { hasIt, meetsNeed } from "../../rules/lib/met-needs.ts";
import type { Axis } from "../../syntax/value.ts";

/** An element with its cells. */
export interface BoxOnPage extends CellBox {
  readonly name: string;
}

interface Usual {
  readonly name: string;
  readonly column: readonly [anchor: Axis["anchor"], offset: number];
  readonly row: readonly [anchor: Axis["anchor"], offset: number];
  /** Shown only on a craft that certainly has this: what nothing is said of would stay empty. */
  readonly has?: Having;
}

const current: Having = { setting: "pack.current-from", not: "none" };
const satellites: Having = { port: "gps" };

function usual(name: string, column: Usual["column"], row: Usual["row"], has?: Having): Usual {
  return { name, column, row, ...(has && { has }) };
}

/** What has to be read whichever page is in front: first what ends a flight if it is missed. */
const ALWAYS: readonly Usual[] = [
  usual("cell-volts", ["left", 2], ["bottom", -1]),
  usual("link-quality", ["right", -2], ["top", 1]),
  usual("alerts", ["centre", 0], ["bottom", -4]),
  usual("flight-time", ["right", -2], ["bottom", -1]),
];

/** By page, the most important first: it keeps its place where there is little room. */
const USUAL: Readonly<Record<OsdPage, readonly Usual[]>> = {
  osd: [
    ...ALWAYS,
    usual("mode", ["left", 2], ["top", 1]),
    usual("home-arrow", ["centre", 0], ["top", 1], satellites),
    usual("home-distance", ["right", -2], ["top", 2], satellites),
    usual("used-capacity", ["left", 2], ["bottom", -2], current),
    usual("satellites", ["left", 2], ["top", 2], satellites),
  ],
  // The page for a closer look: the figures behind those of the first.
  "osd-second": [
    ...ALWAYS,
    usual("pack-volts", ["left", 2], ["bottom", -2]),
    usual("amps", ["left", 2], ["bottom", -3], current),
    usual("signal", ["right", -2], ["top", 2]),
    usual("height", ["right", -2], ["bottom", -2], { setting: "sensors.barometer", is: "yes" }),
    usual("speed", ["left", 2], ["top", 1], satellites),
    usual("satellites", ["left", 2], ["top", 2], satellites),
  ],
};

/**
 * The elements with their cells: inside the safe area of an analogue picture, none over another, no figure over the
 * middle, nothing that the craft is known to be unable to show. What finds no room is left out.
 */
export function usualPage(craft: Craft, { catalogue }: Workspace, page: OsdPage, grid: Grid): BoxOnPage[] {
  if (grid.columns * grid.rows > MOST_CELLS) return [];
  const area = isAnalogue(craft) ? safeCellsOf(craft, grid) : gridArea(grid);
  const middle = centralCells(grid);
  const free = freeCells(grid);
  return USUAL[page].flatMap(({ name, column, row, has }) => {
    const element = catalogue.element(name);
    if (!element || !canShow(craft, element) || (has && hasIt(craft, has) !== true)) return [];
    const size = sizeOf(element, craft);
    const wanted = {
      column: resolveAxis(axis(column), grid.columns, size.width),
      row: resolveAxis(axis(row), grid.rows, size.height),
    };
    let best: BoxOnPage | null = null;
    let bestAway = Number.POSITIVE_INFINITY;
    for (let row = area.top; row + size.height - 1 <= area.bottom; row++) {
      for (let column = area.left; column + size.width - 1 <= area.right; column++) {
        // A cell is about twice as tall as wide.
        const away = Math.hypot(column - wanted.column, 2 * (row - wanted.row));
        if (away >= bestAway || !free.fits({ column, row }, size)) continue;
        const cells = { left: column, top: row, right: column + size.width - 1, bottom: row + size.height - 1 };
        if (!contains(area, cells) || (!element.centre && sharedArea(cells, middle))) continue;
        best = { name, column, row, ...size };
        bestAway = away;
      }
    }
    if (!best) return [];
    free.take(best, size);
    return [best];
  });
}

/** Whether nothing that the craft says keeps it from showing an element. */
export function canShow(craft: Craft, { needs = [] }: ElementSpec): boolean {
  return needs.every((need) => meetsNeed(craft, need));
}

const ALERTS: readonly (readonly [word: string, has: Having | null])[] = [
  ["low-pack", { setting: "pack.volts-from", not: "none" }],
  ["weak-link", null],
  ["cannot-arm", null],
];

/** What the element “alerts” may show: little, since where everything flashes nothing is read. */
export function usualAlerts(craft: Craft): string {
  return ALERTS.flatMap(([word, has]) => (has && hasIt(craft, has) === false ? [] : [word])).join(", ");
}

function axis([anchor, offset]: Usual["column"]): Axis {
  return { anchor, offset, start: 0, end: 0 };
}
