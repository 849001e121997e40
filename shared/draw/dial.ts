/** A dial: a round knob with its ranges as arcs, and below it the settings that follow it and what each range turns on. */
import type { ControlAgainst } from "../protocol/against.ts";
import type { PanelControl, SwitchesState } from "../protocol/panel.ts";
import { adjustsBy } from "./adjust-words.ts";
import { type Card, type CardPlace, wayClass } from "./card.ts";
import { changesNeed } from "./changes.ts";
import { modesHere, notesOfControl, standsAt } from "./control-words.ts";
import type { Point } from "./outline.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { adjustsNeed, drawAdjusts, drawModes, drawNotes, modesNeed } from "./way-modes.ts";
import { dialPulseUs, dialRangeUs } from "./words.ts";
import { lineHeight, text, textWidth } from "./writing.ts";

/** How far the knob turns, in degrees, and where it begins; 0 points up. */
const TURN_DEG = 270;
const BEGIN_DEG = -135;
const KNOB_RADIUS = 26;
const SIZE = 12;
const TEXT_INDENT = 16;

/** The width that a dial and the longest text below it need, so that no name leaves its card. */
export function dialNeeds(control: PanelControl, state: SwitchesState, against: ControlAgainst | null): number {
  const ranges = control.spans.map(({ fromUs, toUs }) => textWidth(rangeInWords(fromUs, toUs), SIZE));
  const modes = control.spans.map((span) => modesNeed(span.modes));
  const below = Math.max(0, ...ranges, ...modes, adjustsNeed(adjustsBy(control.name, state)));
  return Math.max(2 * KNOB_RADIUS + 66, TEXT_INDENT + below, changesNeed(against));
}

function rangeInWords(fromUs: number, toUs: number): string {
  return `${fromUs}–${toUs} us`;
}

/** The knob, pointing to where it is set, above the settings that follow it and its ranges in the script's order. */
export function drawDial(control: PanelControl, place: CardPlace): Card {
  const { x, y, width, state, uses } = place;
  const isSet = typeof state.positions[control.name] === "number";
  const pulseUs = dialPulseUs(control, state.positions);
  const centre = { x: x + KNOB_RADIUS + 5, y: y + KNOB_RADIUS + 4 };
  const range = dialRangeUs(control);
  const degOf = (us: number) =>
    range && range.toUs > range.fromUs
      ? BEGIN_DEG + ((us - range.fromUs) / (range.toUs - range.fromUs)) * TURN_DEG
      : BEGIN_DEG;
  const arcs = control.spans.map((span) => {
    const { fromUs, toUs, modes } = span;
    const [low, high] = [degOf(Math.min(fromUs, toUs)), degOf(Math.max(fromUs, toUs))];
    const isHere = standsAt(control, span, state.positions) === "here";
    const className = ["arc", ...(modes.length > 0 ? [] : ["idle"]), ...(isHere ? ["set"] : [])].join(" ");
    return path(className, arc(centre, KNOB_RADIUS, low + 2, high - 2));
  });
  const tip = around(centre, KNOB_RADIUS - 7, degOf(pulseUs));
  const [first, second] = isSet ? [`${pulseUs} us`, null] : ["not set,", "anywhere"];
  const words = centre.x + KNOB_RADIUS + 12;
  const knob = node("g", { class: isSet ? "knob" : "knob unset", "data-control": control.name, "data-knob": pulseUs }, [
    node("circle", { class: "reach", cx: centre.x, cy: centre.y, r: KNOB_RADIUS + 5 }),
    ...arcs,
    node("circle", { class: "rocker", cx: centre.x, cy: centre.y, r: KNOB_RADIUS - 6 }),
    path("needle", `M${rounded(centre.x)} ${rounded(centre.y)}L${rounded(tip.x)} ${rounded(tip.y)}`),
    text("small", words, centre.y + (second ? -3 : 4), 11, first),
    ...(second ? [text("small", words, centre.y + 11, 11, second)] : []),
  ]);
  let top = y + 2 * KNOB_RADIUS + 14;
  const nodes: SceneNode[] = [knob];
  const { before, after } = notesOfControl(control, state);
  const noted = (notes: readonly string[]) => {
    const drawn = drawNotes(notes, x, top - 4, width);
    nodes.push(...drawn.nodes);
    top += drawn.height;
  };
  noted(before);
  const adjusts = drawAdjusts(adjustsBy(control.name, state), x, top, width);
  nodes.push(...adjusts.nodes);
  top += adjusts.height;
  if (control.spans.some(({ modes }) => modes.length > 0)) {
    const rows = drawSpans(control, { ...place, y: top });
    nodes.push(...rows.nodes);
    top += rows.height;
  }
  if (uses === "said") noted(after);
  return { height: top - y, nodes };
}

function drawSpans(control: PanelControl, { x, y, width, state, mode }: CardPlace): Card {
  const nodes: SceneNode[] = [];
  let top = y;
  for (const span of control.spans) {
    const { fromUs, toUs, modes } = span;
    const stands = standsAt(control, span, state.positions);
    const namesTop = top + 5 + lineHeight(SIZE);
    const shown = drawModes(modesHere(modes, stands, state), x + TEXT_INDENT, namesTop, width - TEXT_INDENT);
    const height = namesTop + shown.height - top + 3;
    const middleUs = Math.round((fromUs + toUs) / 2);
    nodes.push(
      node("g", { class: wayClass(stands, modes, mode), "data-control": control.name, "data-set": middleUs }, [
        rect("reach", { x: x - 5, y: top - 1, width: width + 10, height }, 4),
        rect("key", { x, y: top + 3, width: 6, height: height - 8 }, 3),
        text("way-name", x + TEXT_INDENT, top + 14, SIZE, rangeInWords(fromUs, toUs)),
        ...shown.nodes,
      ]),
    );
    top += height;
  }
  return { height: top - y, nodes };
}

/** The point at a distance from a centre; the direction is in degrees, clockwise from the top. */
function around(centre: Point, radius: number, deg: number): Point {
  const rad = (deg * Math.PI) / 180;
  return { x: centre.x + radius * Math.sin(rad), y: centre.y - radius * Math.cos(rad) };
}

function arc(centre: Point, radius: number, fromDeg: number, toDeg: number): string {
  const [from, to] = [around(centre, radius, fromDeg), around(centre, radius, Math.max(fromDeg + 1, toDeg))];
  const long = toDeg - fromDeg > 180 ? 1 : 0;
  return `M${rounded(from.x)} ${rounded(from.y)}A${radius} ${radius} 0 ${long} 1 ${rounded(to.x)} ${rounded(to.y)}`;
}
