/** OSD elements that are figures rather than text, each drawn as lines within its cells. */
import type { FigureReading, PanelElement } from "../protocol/panel.ts";
import { drawHorizon } from "./horizon.ts";
import { type Box, node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { drawCompass, drawScale } from "./tapes.ts";

/** An element drawn as a figure, with its reading; without one it is drawn in its neutral state. */
export type FigureElement = Pick<PanelElement, "drawn" | "figure" | "width" | "height">;

/** The lines of a figure within the box of its cells, each over a dark line, so that it is visible on any background. */
export function drawFigure(element: FigureElement, box: Box): SceneNode[] {
  const drawn = figureIn(element, box);
  const shades = drawn.flatMap((line) => {
    const { class: name, ...shape } = line.attributes;
    return name === "line" || name === "faint" ? [node(line.tag, { ...shape, class: `shade ${name}-shade` })] : [];
  });
  return [...shades, ...drawn];
}

function figureIn({ drawn, figure, width, height }: FigureElement, box: Box): SceneNode[] {
  switch (drawn) {
    case "text":
      return [];
    case "bar":
      return drawBar(box, reading(figure, "bar")?.share ?? 1);
    case "sight":
      return drawSight(box);
    case "horizon":
      return drawHorizon(box, reading(figure, "horizon") ?? { pitchDeg: 0, rollDeg: 0 });
    case "arrow":
      return drawArrow(box, reading(figure, "arrow")?.turnDeg ?? 0);
    case "trace":
      return drawStick(box, reading(figure, "stick") ?? { across: 0, up: 0 });
    case "tape":
      return width > height
        ? drawCompass(box, width, reading(figure, "compass")?.headingDeg ?? 0)
        : drawScale(box, { width, height }, reading(figure, "scale") ?? { value: 0, step: 10 });
  }
}

function reading<Kind extends FigureReading["kind"]>(figure: FigureReading | undefined, kind: Kind) {
  return figure?.kind === kind ? (figure as Extract<FigureReading, { kind: Kind }>) : undefined;
}

function drawBar(box: Box, share: number): SceneNode[] {
  const frame = inset(box, box.width * 0.04, box.height * 0.24);
  const room = inset(frame, 3, 3);
  const filled = room.width * Math.min(1, Math.max(0, share));
  return [rect("line", frame, 2), ...(filled > 0.5 ? [rect("solid", { ...room, width: filled }, 1)] : [])];
}

function drawSight(box: Box): SceneNode[] {
  const { x, y } = middle(box);
  const arm = Math.min(box.width / 2, box.height) * 0.8;
  const gap = arm * 0.35;
  const fin = `M${at(x, y - gap)}V${rounded(Math.max(box.y + 2, y - gap * 2))}`;
  return [
    path("line", `M${at(x - arm, y)}H${rounded(x - gap)}M${at(x + gap, y)}H${rounded(x + arm)}${fin}`),
    rect("solid", { x: x - 1.5, y: y - 1.5, width: 3, height: 3 }),
  ];
}

function drawArrow(box: Box, turnDeg: number): SceneNode[] {
  const { x, y } = middle(box);
  const reach = Math.min(box.width, box.height) * 0.44;
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const corners = [
    [0, -1],
    [0.62, 0.75],
    [0, 0.42],
    [-0.62, 0.75],
  ] as const;
  const points = corners.map(([a, b]) => at(x + reach * (a * cos - b * sin), y + reach * (a * sin + b * cos)));
  return [path("solid", `M${points.join("L")}Z`)];
}

/** A square with its centre lines, and a dot at the position of the stick. */
function drawStick(box: Box, { across, up }: { across: number; up: number }): SceneNode[] {
  const { x, y } = middle(box);
  const half = Math.min(box.width, box.height) / 2 - 3;
  const within = (value: number) => Math.min(1, Math.max(-1, value)) * (half - 5);
  const cross = `M${at(x - half, y)}h${rounded(half * 2)}M${at(x, y - half)}v${rounded(half * 2)}`;
  return [
    rect("faint", { x: x - half, y: y - half, width: half * 2, height: half * 2 }, 3),
    path("faint", cross),
    node("circle", { class: "solid", cx: x + within(across), cy: y - within(up), r: 5 }),
  ];
}

function middle(box: Box): { x: number; y: number } {
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

function inset(box: Box, x: number, y: number): Box {
  const [width, height] = [Math.max(0, box.width - 2 * x), Math.max(0, box.height - 2 * y)];
  return { x: box.x + x, y: box.y + y, width, height };
}

function at(x: number, y: number): string {
  return `${rounded(x)} ${rounded(y)}`;
}
