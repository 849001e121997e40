/** What `fettle draw` draws of a craft, each picture with what is to be seen in words. */
import { drawGoggles } from "../../../shared/draw/goggles.ts";
import type { SceneNode } from "../../../shared/draw/scene.ts";
import { drawSwitches } from "../../../shared/draw/switches.ts";
import { controlInWords, elementInWords, lossInWords, modesInWords, stateInWords } from "../../../shared/draw/words.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { pagesOf } from "../../../shared/osd/layout.ts";
import type { Grid, Page } from "../../../shared/osd/types.ts";
import { type PanelControl, type PanelElement, SCENARIOS, type Scenario } from "../../../shared/protocol/panel.ts";
import { noSwitches } from "../../../shared/services/panel.ts";
import { gogglesOf, noGoggles } from "../../../shared/services/panel-goggles.ts";
import { switchesOf } from "../../../shared/services/panel-switches.ts";
import { CannotRun } from "./io.ts";

export interface Picture {
  readonly scene: SceneNode;
  readonly title: string;
  readonly description: string;
  /** Bare page round the drawing. */
  readonly margin: number;
  /** Elements for which the grid has no room. */
  readonly unplaced?: readonly string[];
}

export interface WantedOsd {
  readonly page: Page;
  readonly scenario: Scenario;
  readonly fit: Grid | undefined;
}

/** Four controls side by side, each wide enough for an output's name. */
const SWITCHES_WIDTH = 690;

/** The picture in the goggles. */
export function osdPicture(craft: Craft, workspace: Workspace, wanted: WantedOsd): Picture {
  const goggles = gogglesOf(craft, workspace, wanted);
  if (!goggles) throw new CannotRun(noGoggles(craft));
  if (!pagesOf(craft).includes(wanted.page)) throw new CannotRun(`${craft.name} lays out no ${wanted.page} page`);
  const { columns, rows, elements, preview } = goggles;
  const moment = SCENARIOS.find(({ name }) => name === wanted.scenario)!.label;
  const page = wanted.page === "osd-second" ? ", second page" : "";
  return {
    scene: drawGoggles(goggles),
    title: `${craft.name} in the goggles`,
    description: [`${moment}${page}, on ${columns} by ${rows} cells`, ...elements.map(elementWithFlash)].join(". "),
    margin: 0,
    unplaced: preview?.unplaced ?? [],
  };
}

/** The controls at rest, with what each position turns on. */
export function switchesPicture(craft: Craft, workspace: Workspace): Picture {
  const switches = switchesOf(craft, workspace, undefined);
  if (!switches) throw new CannotRun(noSwitches(craft));
  const controls = switches.controls.map(controlWithModes);
  return {
    scene: drawSwitches(switches, { width: SWITCHES_WIDTH }),
    title: `Switches of ${craft.name}, at rest: ${stateInWords(switches.state)}`,
    description: [...controls, lossInWords(switches.loss)].join(" "),
    margin: 14,
  };
}

function controlWithModes(control: PanelControl): string {
  const places = [
    ...control.positions.map(({ name, modes }) => `${name}: ${modesInWords(modes)}`),
    ...control.spans.map(({ fromUs, toUs, modes }) => `${fromUs} to ${toUs} us: ${modesInWords(modes)}`),
  ];
  return `${controlInWords(control)}: ${places.join("; ")}.`;
}

function elementWithFlash(element: PanelElement): string {
  return `${elementInWords(element)}${element.flashes ? "; flashes" : ""}`;
}
