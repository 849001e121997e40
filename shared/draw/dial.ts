/** A dial: a round knob with its ranges as arcs, and below it what each range turns on. */
import type { PanelControl } from "../protocol/panel.ts";
import { type Card, type CardPlace, wayClass } from "./card.ts";
import type { Point } from "./outline.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { dialPulseUs, dialRangeUs, inSpan, markedName } from "./words.ts";
import { lineHeight, text, textLines, textWidth, wrapped } from "./writing.ts";

/** How far the knob turns, in degrees, and where it begins; 0 points up. */
const TURN_DEG = 270;
const BEGIN_DEG = -135;
const KNOB_RADIUS = 26;
const SIZE = 12;
const TEXT_INDENT = 16;

/** The width that a dial and the longest text below it need, so that no name leaves its card. */
export function dialNeeds({ spans }: PanelControl): number {
  const ranges = spans.map(({ fromUs, toUs }) => textWidth(rangeInWords(fromUs, toUs), SIZE));
  const modes = spans.flatMap((span) => span.modes.map((mode) => textWidth(`${markedName(mode)},`, SIZE)));
  return Math.max(2 * KNOB_RADIUS + 52, TEXT_INDENT + Math.max(0, ...ranges, ...modes));
}

function rangeInWords(fromUs: number, toUs: number): string {
  return `${fromUs}–${toUs} us`;
}

/** The knob, pointing to where it is set, above its ranges in the script's order. */
export function drawDial(control: PanelControl, { x, y, width, positions, mode }: CardPlace): Card {
  const pulseUs = dialPulseUs(control, positions);
  const centre = { x: x + KNOB_RADIUS + 5, y: y + KNOB_RADIUS + 4 };
  const range = dialRangeUs(control);
  const degOf = (us: number) =>
    range && range.toUs > range.fromUs
      ? BEGIN_DEG + ((us - range.fromUs) / (range.toUs - range.fromUs)) * TURN_DEG
      : BEGIN_DEG;
  const current = control.spans.findIndex((span) => inSpan(pulseUs, span));
  const arcs = control.spans.map(({ fromUs, toUs, modes }, index) => {
    const [low, high] = [degOf(Math.min(fromUs, toUs)), degOf(Math.max(fromUs, toUs))];
    const className = ["arc", ...(modes.length > 0 ? [] : ["idle"]), ...(index === current ? ["set"] : [])].join(" ");
    return path(className, arc(centre, KNOB_RADIUS, low + 2, high - 2));
  });
  const tip = around(centre, KNOB_RADIUS - 7, degOf(pulseUs));
  const knob = node("g", { class: "knob", "data-control": control.name, "data-knob": pulseUs }, [
    node("circle", { class: "reach", cx: centre.x, cy: centre.y, r: KNOB_RADIUS + 5 }),
    ...arcs,
    node("circle", { class: "rocker", cx: centre.x, cy: centre.y, r: KNOB_RADIUS - 6 }),
    path("needle", `M${rounded(centre.x)} ${rounded(centre.y)}L${rounded(tip.x)} ${rounded(tip.y)}`),
    text("small", centre.x + KNOB_RADIUS + 12, centre.y + 4, 11, `${pulseUs} us`),
  ]);
  const rows = drawSpans(control, { x, y: y + 2 * KNOB_RADIUS + 12, width, positions, mode }, current);
  return { height: 2 * KNOB_RADIUS + 12 + rows.height, nodes: [knob, ...rows.nodes] };
}

function drawSpans(control: PanelControl, { x, y, width, mode }: CardPlace, current: number): Card {
  const nodes: SceneNode[] = [];
  let top = y;
  for (const [index, { fromUs, toUs, modes }] of control.spans.entries()) {
    const names = wrapped(modes.length > 0 ? modes.map(markedName) : ["–"], width - TEXT_INDENT, SIZE);
    const height = 22 + names.length * lineHeight(SIZE);
    const middleUs = Math.round((fromUs + toUs) / 2);
    const set = index === current;
    nodes.push(
      node(
        "g",
        { class: wayClass(set ? "set" : "free", modes, mode), "data-control": control.name, "data-set": middleUs },
        [
          rect("reach", { x: x - 5, y: top - 1, width: width + 10, height }, 4),
          rect("key", { x, y: top + 3, width: 6, height: height - 8 }, 3),
          text("way-name", x + TEXT_INDENT, top + 14, SIZE, rangeInWords(fromUs, toUs)),
          ...textLines(
            modes.length > 0 ? "modes" : "modes none",
            x + TEXT_INDENT,
            top + 14 + lineHeight(SIZE),
            SIZE,
            names,
          ),
        ],
      ),
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
