/** What the panel draws for one document: the picture in the goggles, and the switches. */
import type { Craft, Source } from "../model/craft.ts";
import type { Script } from "../model/script.ts";
import type { Workspace } from "../model/workspace.ts";
import { clashingCells, layoutOf } from "../osd/layout.ts";
import { SAFE_SHARE, safeCells } from "../osd/safe-area.ts";
import { midFlight, sampleText } from "../osd/sample.ts";
import type { GogglesPicture, LinePlace, PanelModel } from "../protocol/panel.ts";
import { findingsOf } from "../rules/engine.ts";
import { pickedCraft, switchesOf } from "./panel-switches.ts";

export interface PanelAsk {
  /** Of several craft that use the file, the one to draw. */
  readonly craft?: string | undefined;
  readonly positions?: Readonly<Record<string, string | number>> | undefined;
}

/** The panel's model; `version` is handed through, so that an answer can be told from a later one. */
export function panelOf(workspace: Workspace, file: string, version: number, ask: PanelAsk = {}): PanelModel {
  const script = workspace.script(file);
  const crafts = workspace.craftsWith(file);
  const craft = pickedCraft(workspace, file, crafts, ask.craft);
  const alsoIn = crafts
    .filter((each) => each.file !== craft?.file)
    .map((each) => ({ file: each.file, name: each.name }));
  const base = { file, version, alsoIn: script?.kind === "craft" ? [] : alsoIn };
  if (!script || !craft) {
    return {
      ...base,
      craft: "",
      empty: whyEmpty(script),
      goggles: null,
      noGoggles: null,
      switches: null,
      noSwitches: null,
      findings: [],
    };
  }
  const goggles = gogglesOf(craft, workspace);
  const switches = switchesOf(craft, workspace, ask.positions);
  return {
    ...base,
    craft: craft.name,
    empty: null,
    goggles,
    noGoggles: goggles ? null : noGoggles(craft),
    switches,
    noSwitches: switches ? null : noSwitches(craft),
    findings: findingsOf(workspace, craft.file).map(({ code, severity, message, file: at, range, witness }) => ({
      code,
      severity,
      message,
      file: at,
      range,
      witness: witness ?? null,
    })),
  };
}

function whyEmpty(script: Script | null): string {
  if (!script) return "Open a script to see its drawings.";
  if (script.tree.newer)
    return "This script is written in a newer edition of the language: update the tool to see it drawn.";
  if (script.kind === "craft") return "This craft could not be read.";
  return `No craft of this workspace uses this ${script.kind}: open a craft, or name this file in one with “use”.`;
}

/** Why there is no OSD to draw, and what to add. */
export function noGoggles(craft: Craft): string {
  if (craft.osd.size === 0)
    return "Nothing is placed on the OSD yet: add a section “osd” with a “grid” and lines such as “pack-volts at left+2, bottom-1”.";
  return "The OSD has no grid, so nothing can be placed: say how many columns and rows there are, as in “grid 53 x 20”.";
}

/** Why there are no switches to draw, and what to add. */
export function noSwitches(craft: Craft): string {
  if (!craft.handset) return "No handset is in use: name the pilot's with a “use” line to see what its switches do.";
  return "The handset lists no controls yet: add them to its section “controls”.";
}

export function gogglesOf(craft: Craft, workspace: Workspace): GogglesPicture | null {
  const layout = layoutOf(craft, workspace.catalogue, "osd");
  if (!layout) return null;
  const readings = midFlight(craft);
  const picture = pictureOf(craft);
  return {
    columns: layout.grid.columns,
    rows: layout.grid.rows,
    aspect: picture === "16:9" ? 16 / 9 : 4 / 3,
    safe: isAnalogue(craft) ? safeCells(layout.grid, SAFE_SHARE[picture]) : null,
    elements: layout.elements.map((placed) => ({
      name: placed.name,
      column: placed.column,
      row: placed.row,
      width: placed.width,
      height: placed.height,
      drawn: placed.element.drawn,
      text: sampleText(placed.element, readings, workspace.catalogue, placed.width),
      placed: craft.osd.get(placed.name)?.text ?? "",
      what: placed.element.what,
      at: placeOf(placed.source),
      clashing: clashingCells(placed, layout),
      overlapsNothing: placed.element.overlapsNothing === true,
      flashes: false,
      alsoOn: [],
    })),
    page: "osd",
    pages: ["osd"],
    scenario: "mid-flight",
    canHide: false,
    addable: [],
    preview: null,
  };
}

/** The shape of the picture: as said; else by the signal, whose pictures are mostly of one shape. */
function pictureOf(craft: Craft): "4:3" | "16:9" {
  const said = craft.settings.get("osd")?.get("picture")?.value;
  if (said?.kind === "choice") return said.word === "16:9" ? "16:9" : "4:3";
  return craft.settings.get("video")?.get("signal")?.text === "digital" ? "16:9" : "4:3";
}

/** Only an analogue picture loses its edges to the screen; a digital one is drawn whole by its viewer. */
function isAnalogue(craft: Craft): boolean {
  return craft.settings.get("video")?.get("signal")?.text === "analogue";
}

export function placeOf(source: Source): LinePlace {
  return { file: source.file, line: source.line };
}
