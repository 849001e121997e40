/** The horizon as a banked craft sees it: the line of the display, and the sky and ground behind it. */
import { type Box, path, rect, rounded, type SceneNode } from "./scene.ts";

/** Nose up and right side down are positive, in degrees. */
export interface Attitude {
  readonly pitchDeg: number;
  readonly rollDeg: number;
}

/** Degrees of pitch that the whole height of the box shows. */
const PITCH_SPAN = 90;

/** A line within a box, through the point `x`, `y` in the direction `along`, `up` of length one (y grows downwards). */
export interface HorizonLine {
  readonly x: number;
  readonly y: number;
  readonly along: number;
  readonly up: number;
  /** From that point to each end of the line. */
  readonly reach: number;
}

/** Where the horizon lies in the box of its element; a craft that banks to the right sees it lean to the left. */
export function horizonIn(box: Box, { pitchDeg, rollDeg }: Attitude): HorizonLine {
  const lean = (-rollDeg * Math.PI) / 180;
  const [along, up] = [Math.cos(lean), Math.sin(lean)];
  const half = box.height / 2 - 4;
  const reach = Math.min(box.width * 0.36, half / Math.max(0.01, Math.abs(up)));
  const room = Math.max(0, half - Math.abs(up) * reach);
  const offset = Math.min(room, Math.max(-room, (pitchDeg / PITCH_SPAN) * box.height));
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 + offset, along, up, reach };
}

/** Sky and ground that fill the screen, with that horizon between them; on its back a craft sees the ground above. */
export function drawScenery(screen: Box, { x, y, along, up }: HorizonLine): SceneNode[] {
  const slope = up / (Math.abs(along) < 0.01 ? 0.01 : along);
  const [top, bottom] = [screen.y, screen.y + screen.height];
  const edge = (at: number) => rounded(Math.min(bottom, Math.max(top, y + (at - x) * slope)));
  const right = screen.x + screen.width;
  const ground = `M${rounded(screen.x)} ${edge(screen.x)}L${rounded(right)} ${edge(right)}V${rounded(along < 0 ? top : bottom)}H${rounded(screen.x)}Z`;
  return [rect("sky", screen), path("ground", ground)];
}

/** The line of the display, and two short marks at the sides that are fixed to the craft. */
export function drawHorizon(box: Box, attitude: Attitude): SceneNode[] {
  const { x, y, along, up, reach } = horizonIn(box, attitude);
  const [middle, mark, gap] = [box.y + box.height / 2, box.width * 0.07, box.width * 0.06];
  const marks = `M${at(box.x + 2, middle)}h${rounded(mark)}M${at(box.x + box.width - 2, middle)}h${rounded(-mark)}`;
  const end = (share: number) => at(x + share * along, y + share * up);
  const halves = [-1, 1].map((side) => `M${end(side * gap)}L${end(side * reach)}`).join("");
  return [path("line", halves), path("faint", marks)];
}

function at(x: number, y: number): string {
  return `${rounded(x)} ${rounded(y)}`;
}
