/** The pictures of a craft as a printed sheet shows them: black on white, and nothing moves. */
import { toldOfControl } from "../../draw/control-words.ts";
import { drawGoggles } from "../../draw/goggles.ts";
import { motorsScene } from "../../draw/motors.ts";
import { motorsInWords } from "../../draw/motors-words.ts";
import type { SceneNode } from "../../draw/scene.ts";
import { toSvg } from "../../draw/svg.ts";
import { drawSwitches } from "../../draw/switches.ts";
import { controlInWords, elementInWords, lossInWords } from "../../draw/words.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { pagesOf } from "../../osd/layout.ts";
import type { OsdPage } from "../../protocol/osd.ts";
import type { PanelControl } from "../../protocol/panel.ts";
import { placeInWords } from "../../text/places.ts";
import { motorsPicture } from "../panel/motors.ts";
import { osdDrawable, switchesDrawable } from "../panel/pictures.ts";
import type { SheetPicture, SheetPictures } from "./bench-page.ts";

/** Width of the handset in its own units: on a sheet four or five controls stand side by side, in letters of some 2.2 mm. */
const SWITCHES_WIDTH = 900;
/** So many controls at a time: less than half a page, so that a picture finds a place near its steps. */
const PART_MOST = 15;

/** What there is to draw of a craft, as files of their own. */
export function sheetPictures(craft: Craft, workspace: Workspace): SheetPictures {
  return {
    osd: osdPicture(craft, workspace, "osd"),
    "osd-second": osdPicture(craft, workspace, "osd-second"),
    switches: switchesPicture(craft, workspace),
    motors: motorsOnSheet(craft, workspace),
  };
}

function osdPicture(craft: Craft, workspace: Workspace, page: OsdPage): SheetPicture | null {
  if (!pagesOf(craft).includes(page)) return null;
  const drawable = osdDrawable(craft, workspace, { page });
  if ("why" in drawable || drawable.picture.elements.length === 0) return null;
  const { elements, columns, rows } = drawable.picture;
  const words = [`${columns} by ${rows} cells`, ...elements.map(elementInWords)];
  return { svgs: [svgOf(drawGoggles(drawable.picture), 0)], stands: "across", note: "", words: `${words.join(". ")}.` };
}

/**
 * The controls side by side, in the order in which the hands find them. As they lie in the hand they would fill a page;
 * whoever works through the list has the handset before them.
 */
function switchesPicture(craft: Craft, workspace: Workspace): SheetPicture | null {
  const drawable = switchesDrawable(craft, workspace);
  if ("why" in drawable) return null;
  const { state, loss } = drawable.picture;
  const controls = asTheyLie(drawable.picture.controls);
  const words = controls.map((control) => `${controlInWords(control)}: ${toldOfControl(control, state).join(". ")}.`);
  const inRows = controls.map(({ lies: _, ...control }): PanelControl => control);
  // A handset without controls is drawn too: it says so in words.
  const parts = Array.from({ length: Math.max(1, Math.ceil(controls.length / PART_MOST)) }, (_, part) =>
    inRows.slice(part * PART_MOST, (part + 1) * PART_MOST),
  );
  return {
    svgs: parts.map((part, at) => {
      const told = { width: SWITCHES_WIDTH, words: at === 0 ? "above" : "none" } as const;
      return svgOf(drawSwitches({ ...drawable.picture, controls: part }, told), 2);
    }),
    stands: "across",
    note: placesOf(controls),
    words: [...words, lossInWords(loss)].join(" "),
  };
}

const FACES = ["shoulder", null, "face", "back"] as const;
const SIDES = ["left", "middle", "right"] as const;

/** From above to below, and from left to right; at the end those of which nothing is said. */
function asTheyLie(controls: readonly PanelControl[]): readonly PanelControl[] {
  const rank = ({ lies }: PanelControl) =>
    lies ? FACES.indexOf(lies.face) * SIDES.length + SIDES.indexOf(lies.side) : FACES.length * SIDES.length;
  return controls.toSorted((a, b) => rank(a) - rank(b));
}

/** “TL on the left shoulder, TR on the right shoulder”; empty where nothing is said. */
function placesOf(controls: readonly PanelControl[]): string {
  return controls.flatMap(({ name, lies }) => (lies ? `${name} ${placeInWords(lies)}` : [])).join(", ");
}

/** A third of a sheet wide, its numbers over 3 mm high. */
const MOTORS_WIDTH = 240;

function motorsOnSheet(craft: Craft, workspace: Workspace): SheetPicture | null {
  const picture = motorsPicture(craft, workspace);
  if (!picture) return null;
  const scene = motorsScene(picture, { width: MOTORS_WIDTH, notes: "meaning" });
  return { svgs: [svgOf(scene, 2)], stands: "beside", note: "", words: motorsInWords(picture).join(" ") };
}

function svgOf(scene: SceneNode, margin: number): string {
  return toSvg(scene, "paper", { title: "", letters: "still", margin });
}
