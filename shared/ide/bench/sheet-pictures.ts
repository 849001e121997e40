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
import { motorsPicture } from "../panel/motors.ts";
import { osdDrawable, switchesDrawable } from "../panel/pictures.ts";
import type { SheetPicture, SheetPictures } from "./bench-page.ts";

/** Width of the handset in its own units: over half of a sheet its letters are then some 2.5 mm high. */
const SWITCHES_WIDTH = 440;
/** A handset with more controls than go beside the steps is drawn over the whole width, these many at a time. */
const BESIDE_MOST = 9;
const WHOLE_WIDTH = 690;

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
  return { svgs: [svgOf(drawGoggles(drawable.picture), 0)], words: `${words.join(". ")}.` };
}

function switchesPicture(craft: Craft, workspace: Workspace): SheetPicture | null {
  const drawable = switchesDrawable(craft, workspace);
  if ("why" in drawable) return null;
  const { controls, state, loss } = drawable.picture;
  const words = controls.map((control) => `${controlInWords(control)}: ${toldOfControl(control, state).join(". ")}.`);
  const drawn = (those: readonly PanelControl[], width: number, words: "above" | "none") =>
    svgOf(drawSwitches({ ...drawable.picture, controls: those }, { width, words }), 2);
  const svgs =
    controls.length <= BESIDE_MOST
      ? [drawn(controls, SWITCHES_WIDTH, "above")]
      : Array.from({ length: Math.ceil(controls.length / BESIDE_MOST) }, (_, part) =>
          drawn(
            controls.slice(part * BESIDE_MOST, (part + 1) * BESIDE_MOST),
            WHOLE_WIDTH,
            part === 0 ? "above" : "none",
          ),
        );
  return { svgs, words: [...words, lossInWords(loss)].join(" ") };
}

/** A third of a sheet wide, its numbers over 3 mm high. */
const MOTORS_WIDTH = 240;

function motorsOnSheet(craft: Craft, workspace: Workspace): SheetPicture | null {
  const picture = motorsPicture(craft, workspace);
  if (!picture) return null;
  const scene = motorsScene(picture, { width: MOTORS_WIDTH, notes: "meaning" });
  return { svgs: [svgOf(scene, 2)], words: motorsInWords(picture).join(" ") };
}

function svgOf(scene: SceneNode, margin: number): string {
  return toSvg(scene, "paper", { title: "", letters: "still", margin });
}
