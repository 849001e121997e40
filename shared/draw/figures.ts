/** Elements of the OSD that are figures rather than text, each as lines within its cells. */
import type { PanelElement } from "../protocol/panel.ts";
import { type Box, node, path, rect, rounded, type SceneNode } from "./scene.ts";

type Figure = Exclude<PanelElement["drawn"], "text">;

/** The lines of a figure within the box that its cells make, each over a dark one of its own that stands out from any ground. */
export function drawFigure(figure: Figure, box: Box): SceneNode[] {
  const drawn = figures[figure](box);
  const shades = drawn.flatMap((line) => {
    const { class: name, ...shape } = line.attributes;
    return name === "line" || name === "faint" ? [node(line.tag, { ...shape, class: `shade ${name}-shade` })] : [];
  });
  return [...shades, ...drawn];
}

const figures: Readonly<Record<Figure, (box: Box) => SceneNode[]>> = {
  bar: (box) => {
    const inner = inset(box, box.width * 0.04, box.height * 0.24);
    const filled = { ...inset(inner, 3, 3), width: Math.max(0, (inner.width - 6) * 0.62) };
    return [rect("line", inner, 2), rect("solid", filled, 1)];
  },
  sight: (box) => {
    const { x, y } = middle(box);
    const arm = Math.min(box.width / 2, box.height) * 0.8;
    const gap = arm * 0.35;
    return [
      path(
        "line",
        `${across(x - arm, x - gap, y)}${across(x + gap, x + arm, y)}${down(x, y - gap, Math.max(box.y + 2, y - gap * 2))}`,
      ),
      rect("solid", { x: x - 1.5, y: y - 1.5, width: 3, height: 3 }),
    ];
  },
  horizon: (box) => {
    const { x, y } = middle(box);
    const half = box.width * 0.48;
    const gap = box.width * 0.1;
    const step = box.height * 0.3;
    const rung = box.width * 0.12;
    const rungs = [y - step, y + step].map((at) => across(x - rung, x + rung, at)).join("");
    const ends = `${down(x - half, y, y + step * 0.4)}${down(x + half, y, y + step * 0.4)}`;
    return [
      path("line", `${across(x - half, x - gap, y)}${across(x + gap, x + half, y)}${ends}`),
      path("faint", rungs),
    ];
  },
  arrow: (box) => {
    const { x, y } = middle(box);
    const reach = Math.min(box.width, box.height) * 0.44;
    const left = `${at(x - reach * 0.62, y + reach)}`;
    const right = `${at(x + reach * 0.62, y + reach)}`;
    return [path("solid", `M${at(x, y - reach)}L${right}L${at(x, y + reach * 0.5)}L${left}Z`)];
  },
  trace: (box) => {
    const inner = inset(box, box.width * 0.03, box.height * 0.1);
    const heights = [0.2, 0.34, 0.3, 0.52, 0.66, 0.6, 0.8, 0.72, 0.86, 0.7];
    const points = heights.map((share, index) =>
      at(inner.x + (inner.width * index) / (heights.length - 1), inner.y + inner.height * (1 - share)),
    );
    const base = across(inner.x, inner.x + inner.width, inner.y + inner.height);
    return [path("line", `M${points.join("L")}`), path("faint", base)];
  },
  tape: (box) => (box.height > box.width ? uprightTape(box) : lyingTape(box)),
};

function uprightTape(box: Box): SceneNode[] {
  const { x, y } = middle(box);
  const ticks = spread(9).map((share, index) => {
    const length = box.width * (index % 2 === 0 ? 0.5 : 0.3);
    return across(box.x + box.width * 0.2, box.x + box.width * 0.2 + length, box.y + box.height * share);
  });
  const spine = down(box.x + box.width * 0.2, box.y, box.y + box.height);
  const pointer = `M${at(box.x + box.width * 0.3, y)}L${at(x + box.width * 0.4, y - 6)}V${rounded(y + 6)}Z`;
  return [path("faint", `${spine}${ticks.join("")}`), path("solid", pointer)];
}

function lyingTape(box: Box): SceneNode[] {
  const { x } = middle(box);
  const foot = box.y + box.height * 0.85;
  const ticks = spread(13).map((share, index) =>
    down(box.x + box.width * share, foot - box.height * (index % 3 === 0 ? 0.5 : 0.25), foot),
  );
  const pointer = `M${at(x, foot - box.height * 0.3)}l-5 ${rounded(-box.height * 0.5)}h10Z`;
  return [path("faint", `${across(box.x, box.x + box.width, foot)}${ticks.join("")}`), path("solid", pointer)];
}

/** That many shares of a length, the ends left free. */
function spread(count: number): number[] {
  return Array.from({ length: count }, (_, index) => (index + 0.5) / count);
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

function across(fromX: number, toX: number, y: number): string {
  return `M${at(fromX, y)}H${rounded(toX)}`;
}

function down(x: number, fromY: number, toY: number): string {
  return `M${at(x, fromY)}V${rounded(toY)}`;
}
