/**
 * The picture in the goggles, as the panel draws it: one page at one moment of a flight, optionally on another grid.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { havingInWords } from "../../catalogue/relations/needs-words.ts";
import type { ElementSpec, Need } from "../../catalogue/specs.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { isBlank, sampleText } from "../../osd/element-text.ts";
import { figureOf } from "../../osd/figure.ts";
import { fitLayout } from "../../osd/fit.ts";
import { clashingCells, layoutOf, pagesOf, placedOn, sizeOf, viewerGridOf } from "../../osd/layout.ts";
import type { Grid, Layout, Page } from "../../osd/placed.ts";
import { isAnalogue, pictureOf, safeCellsOf } from "../../osd/safe-area.ts";
import { displayStateOf } from "../../osd/scenarios.ts";
import { LARGEST_GRID, SCENARIOS, type Scenario } from "../../protocol/osd.ts";
import type { AddableElement, FigureReading, GogglesPicture, PanelElement } from "../../protocol/panel.ts";
import type { SignalPhase, SignalStep } from "../../protocol/signal.ts";
import { hasIt, meetsNeed } from "../../rules/lib/met-needs.ts";
import { printAxis } from "../../syntax/print-value.ts";
import { craftSharingLine } from "./craft-sharing-line.ts";
import { phaseAt, signalPictureOf } from "./signal.ts";

export interface GogglesQuery {
  readonly scenario?: Scenario | undefined;
  /** Of a lost signal: the phase at which it is looked at. */
  readonly signal?: SignalStep | undefined;
  /** For a page that the craft does not lay out, its first page is shown. */
  readonly page?: Page | undefined;
  /** The layout is shown as it would be on this grid. */
  readonly fit?: Grid | undefined;
}

/** The picture; null where the craft has no grid. */
export function gogglesOf(craft: Craft, workspace: Workspace, query: GogglesQuery = {}): GogglesPicture | null {
  const { catalogue } = workspace;
  const pages = pagesOf(craft);
  const page = query.page && pages.includes(query.page) ? query.page : pages[0]!;
  const written = layoutOf(craft, catalogue, page);
  if (!written) return null;
  const fitted = query.fit && fitLayout(written, clampGrid(query.fit));
  const layout = fitted?.layout ?? written;
  const scenario = SCENARIOS.find(({ name }) => name === query.scenario)?.name ?? "mid-flight";
  const phase = scenario === "signal-lost" ? phaseAt(signalPictureOf(craft, workspace, query.signal)) : undefined;
  return {
    columns: layout.grid.columns,
    rows: layout.grid.rows,
    attitude: attitudeAt(craft, scenario, phase),
    aspect: pictureOf(craft) === "16:9" ? 16 / 9 : 4 / 3,
    safe: isAnalogue(craft) ? safeCellsOf(craft, layout.grid) : null,
    elements: elementsOf({ craft, workspace, page, layout, scenario, phase, preview: fitted !== undefined }),
    page,
    pages,
    scenario,
    canHide: canHide(craft, workspace, page),
    addable: addable(craft, catalogue, page),
    viewerGrid: viewerGridOf(craft),
    preview: fitted ? { ...layout.grid, unplaced: fitted.unplaced } : null,
  };
}

/** A requested grid, limited to whole cells, at least one and at most as many as a grid can have. */
function clampGrid({ columns, rows }: Grid): Grid {
  const whole = (cells: number, most: number) => Math.max(1, Math.min(most, Math.floor(cells) || 1));
  return { columns: whole(columns, LARGEST_GRID.columns), rows: whole(rows, LARGEST_GRID.rows) };
}

interface DrawnPage {
  readonly craft: Craft;
  readonly workspace: Workspace;
  readonly page: Page;
  readonly layout: Layout;
  readonly scenario: Scenario;
  readonly phase: SignalPhase | undefined;
  readonly preview: boolean;
}

function elementsOf({ craft, workspace, page, layout, scenario, phase, preview }: DrawnPage): PanelElement[] {
  const { readings, flashes } = displayStateOf(craft, scenario, phase);
  const others = craftSharingLine(craft, workspace, page);
  return layout.elements.map((placed) => ({
    name: placed.name,
    column: placed.column,
    row: placed.row,
    width: placed.width,
    height: placed.height,
    drawn: placed.element.drawn,
    text: sampleText(placed.element, readings, workspace.catalogue, placed.width),
    blank: isBlank(placed.element, readings, workspace.catalogue),
    ...figurePart(figureOf(placed.name, readings)),
    placed: preview
      ? `${printAxis(placed.place.column)}, ${printAxis(placed.place.row)}`
      : (placedOn(craft, page).get(placed.name)?.text ?? ""),
    what: placed.element.what,
    at: placed.source,
    clashing: clashingCells(placed, layout),
    overlapsNothing: placed.element.overlapsNothing === true,
    flashes: flashes.has(placed.name),
    sharedWith: others(placed.name, placed.source),
    faults: [],
  }));
}

function attitudeAt(craft: Craft, scenario: Scenario, phase: SignalPhase | undefined): GogglesPicture["attitude"] {
  const { readings } = displayStateOf(craft, scenario, phase);
  const degrees = (reading: string) => Number(readings.get(reading) ?? 0);
  return { pitchDeg: degrees("pitch-angle"), rollDeg: degrees("roll-angle") };
}

function figurePart(figure: FigureReading | null): { readonly figure?: FigureReading } {
  return figure ? { figure } : {};
}

/** Whether some state of the controls hides the page where it would be shown. */
function canHide(craft: Craft, workspace: Workspace, page: Page): boolean {
  if (!craft.modes.has("osd-hide")) return false;
  const { selected, sets } = boardOf(craft, workspace);
  const hide = selected("osd-hide");
  const second = selected("osd-second");
  if (hide === null || second === null) return false;
  return sets.meet(hide, page === "osd-second" ? second : sets.not(second)) === true;
}

/** The elements that the page does not have, in the catalogue's order. */
function addable(craft: Craft, catalogue: Catalogue, page: Page): AddableElement[] {
  const placed = placedOn(craft, page);
  return catalogue.elements
    .filter(({ name }) => !placed.has(name))
    .map((element) => ({
      name: element.name,
      what: element.what,
      ...sizeOf(element, craft),
      ...needsOf(element, craft),
    }));
}

/** What an element needs that the craft does not have for certain. */
function needsOf({ needs = [] }: ElementSpec, craft: Craft): Pick<AddableElement, "lacks" | "asks"> {
  const open = needs.filter(
    (need) =>
      !need.while?.some((having) => hasIt(craft, having) !== true) &&
      ![need, ...(need.or ?? [])].some((having) => hasIt(craft, having) === true),
  );
  const words = (need: Need) => [need, ...(need.or ?? [])].map(havingInWords).join(" or ");
  return {
    lacks: open.filter((need) => !meetsNeed(craft, need)).map(words),
    asks: open.filter((need) => meetsNeed(craft, need)).map(words),
  };
}

/** Why there is no OSD to draw, and what to add. */
export function whyNoGoggles(craft: Craft): string {
  const grid = craft.settings.get("osd")?.get("grid");
  if (grid)
    return grid.value
      ? `A grid of ${grid.text} has no cell, so nothing can be placed: say how many columns and rows there are, as in “grid 53 x 20”.`
      : "The line of the OSD's grid cannot be read, so nothing can be placed: say columns and rows as in “grid 53 x 20”.";
  if (craft.osd.size === 0 && craft.osdSecond.size === 0)
    return "Nothing is placed on the OSD yet: add a section “osd” with a “grid” and lines such as “pack-volts at left+2, bottom-1”.";
  return "The OSD has no grid, so nothing can be placed: say how many columns and rows there are, as in “grid 53 x 20”.";
}
