/** What `fettle draw` draws of a craft, each picture with what is to be seen in words. */
import {
  gogglesAgainstInWords,
  otherInWords,
  statesInWords,
  switchesAgainstInWords,
} from "../../../shared/draw/against-words.ts";
import { toldOfControl } from "../../../shared/draw/control-words.ts";
import { drawFilters, filtersInWords } from "../../../shared/draw/filters.ts";
import { drawGoggles } from "../../../shared/draw/goggles.ts";
import { motorsScene } from "../../../shared/draw/motors.ts";
import { motorsInWords, turningNotes } from "../../../shared/draw/motors-words.ts";
import { drawRates } from "../../../shared/draw/rates.ts";
import type { SceneNode } from "../../../shared/draw/scene.ts";
import { drawSwitches } from "../../../shared/draw/switches.ts";
import { controlInWords, elementInWords, lossInWords, stateInWords } from "../../../shared/draw/words.ts";
import type { OtherCraft } from "../../../shared/ide/panel/other-craft.ts";
import {
  type Drawable,
  filtersDrawable,
  motorsDrawable,
  osdAgainst,
  osdDrawable,
  ratesDrawable,
  switchesAgainst,
  switchesDrawable,
} from "../../../shared/ide/panel/pictures.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { pagesOf } from "../../../shared/osd/layout.ts";
import { type Grid, type OsdPage, SCENARIOS, type Scenario } from "../../../shared/protocol/osd.ts";
import type { PanelControl, PanelElement, SwitchesState } from "../../../shared/protocol/panel.ts";
import { CannotRun } from "./io.ts";

/** A drawing with its words. */
export interface Picture {
  readonly scene: SceneNode;
  readonly title: string;
  readonly description: string;
  /** Bare page round the drawing. */
  readonly margin: number;
  /** Elements for which the grid has no room. */
  readonly unplaced?: readonly string[];
}

/** What is to be seen of the OSD. */
export interface OsdQuery {
  readonly page: OsdPage;
  /** Without one the layout is shown at the usual moment, and what is blank then by its name. */
  readonly scenario: Scenario | undefined;
  readonly fit: Grid | undefined;
}

/** Bare page round what is not a picture to its edges. */
const MARGIN = 14;
/** Four controls side by side, each wide enough for an output's name. */
const SWITCHES_WIDTH = 690;

/** The picture in the goggles. */
export function osdPicture(craft: Craft, workspace: Workspace, query: OsdQuery, other?: OtherCraft): Picture {
  const goggles = drawn(osdDrawable(craft, workspace, query));
  if (!pagesOf(craft).includes(query.page)) throw new CannotRun(`${craft.name} lays out no ${query.page} page`);
  const { columns, rows, elements, preview } = goggles;
  const moment = SCENARIOS.find(({ name }) => name === goggles.scenario)!.label;
  // Of one moment the pilot sees no more than the display shows then.
  const seen = query.scenario === undefined ? elements : elements.filter(({ blank }) => !blank);
  const page = query.page === "osd-second" ? ", second page" : "";
  const against = other && osdAgainst(craft, workspace, query, other);
  if (against?.noGoggles) throw new CannotRun(against.noGoggles);
  const both = against?.goggles;
  return {
    scene: drawGoggles({ ...goggles, elements: seen }, { against: both }),
    title: `${craft.name} in the goggles${against ? `, compared with ${otherInWords(against)}` : ""}`,
    description: [
      `${moment}${page}, on ${columns} by ${rows} cells`,
      ...elements.map(elementWithFlash),
      ...(both ? gogglesAgainstInWords(goggles, both) : []),
    ].join(". "),
    margin: 0,
    unplaced: preview?.unplaced ?? [],
  };
}

/** The controls at rest, with what each position turns on. */
export function switchesPicture(craft: Craft, workspace: Workspace, other?: OtherCraft): Picture {
  const switches = drawn(switchesDrawable(craft, workspace));
  const controls = switches.controls.map((control) => controlWithModes(control, switches.state));
  const against = other && switchesAgainst(craft, workspace, other);
  if (against?.noSwitches) throw new CannotRun(against.noSwitches);
  const both = against?.switches;
  const state = both ? statesInWords(switches.state, both.state).join(" ") : stateInWords(switches.state);
  const whose = against ? `${craft.name}, compared with ${otherInWords(against)}` : craft.name;
  return {
    scene: drawSwitches(switches, { width: SWITCHES_WIDTH, against: both }),
    title: `Switches of ${whose}, at rest: ${state}`,
    description: [
      ...controls,
      lossInWords(switches.loss),
      ...(both ? switchesAgainstInWords(both).map((line) => `${line}.`) : []),
    ].join(" "),
    margin: MARGIN,
  };
}

/** How fast the craft turns for where the sticks are, both sets if there are two. */
export function ratesPicture(craft: Craft, workspace: Workspace): Picture {
  const { first, second } = drawn(ratesDrawable(craft, workspace));
  const scene = drawRates(first, { second, width: second ? 900 : 720 });
  return { scene, title: `Rates of ${craft.name}`, description: wordsOf(scene), margin: MARGIN };
}

/** What the filters let through and how much later. */
export function filtersPicture(craft: Craft, workspace: Workspace): Picture {
  const filters = drawn(filtersDrawable(craft, workspace));
  return {
    scene: drawFilters(filters),
    title: `Filters of ${craft.name}`,
    description: filtersInWords(filters),
    margin: MARGIN,
  };
}

/** The motors as they stand round the craft, seen from above. */
export function motorsPicture(craft: Craft, workspace: Workspace): Picture {
  const motors = drawn(motorsDrawable(craft, workspace));
  return {
    scene: motorsScene(motors, { notes: "all" }),
    title: `Motors of ${craft.name} from above`,
    description: [...turningNotes(motors), ...motorsInWords(motors)].join(" "),
    margin: MARGIN,
  };
}

/** The picture; where there is none, the command cannot run, and says what is missing. */
function drawn<T>(drawable: Drawable<T>): T {
  if ("why" in drawable) throw new CannotRun(drawable.why);
  return drawable.picture;
}

/** The words that the charts of a drawing carry. */
function wordsOf({ attributes, children }: SceneNode): string {
  const own = attributes["aria-label"];
  if (own !== undefined) return String(own);
  return children.flatMap((child) => (typeof child === "string" ? [] : wordsOf(child))).join(" ");
}

function controlWithModes(control: PanelControl, state: SwitchesState): string {
  return `${controlInWords(control)}: ${toldOfControl(control, state).join(". ")}.`;
}

function elementWithFlash(element: PanelElement): string {
  return `${elementInWords(element)}${element.flashes ? "; flashes" : ""}`;
}
