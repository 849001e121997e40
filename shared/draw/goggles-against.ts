/**
 * What differs between the picture here and the one there, drawn into the picture: the cells there as broken outlines
 * with thin stripes and their names, joined by an arrow to the element here that has moved.
 */
import type { ElementMark, GogglesAgainst } from "../protocol/against.ts";
import type { GogglesPicture } from "../protocol/panel.ts";
import { markInWords } from "./against-words.ts";
import { type Cells, differingElements } from "./differing.ts";
import { labelPlace } from "./labels.ts";
import { type Box, node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text, textWidth } from "./writing.ts";

/** The stripes of a cell there: thin, and sloping the other way than the hatching of a cell that is amiss. */
export const thereStripes = node(
  "pattern",
  { id: "there-stripes", width: 12, height: 12, patternUnits: "userSpaceOnUse", patternTransform: "rotate(-45)" },
  [
    rect("there-ground", { x: 0, y: 0, width: 12, height: 12 }),
    rect("there-stripe", { x: 0, y: 0, width: 2, height: 12 }),
  ],
);

/** What lies below the elements of here, and what lies above them. */
export function drawThere(
  here: GogglesPicture,
  against: GogglesAgainst,
  boxOf: (cells: Cells) => Box,
  screen: Box,
): { readonly below: readonly SceneNode[]; readonly above: readonly SceneNode[] } {
  const differing = differingElements(here, against).map(({ cellsThere, ...each }) => ({
    ...each,
    boxHere: each.here && boxOf(each.here),
    boxThere: cellsThere && boxOf(cellsThere),
  }));
  const below = differing.flatMap(({ mark, here: own, there, boxThere }) =>
    boxThere ? [outline(mark, boxThere, markInWords(mark, own, there, [here, against.picture]))] : [],
  );
  const joins = differing.flatMap(({ boxHere, boxThere }) => (boxHere && boxThere ? arrow(boxHere, boxThere) : []));
  const frames = differing.flatMap(({ boxHere, boxThere }) => (boxHere && !boxThere ? [onlyHere(boxHere)] : []));
  // What a label should not hide; figures that may lie over anything, such as the horizon, would leave no place.
  const taken = [
    ...here.elements.filter(({ overlapsNothing, drawn }) => !overlapsNothing || drawn === "text").map(boxOf),
    ...differing.flatMap(({ boxThere }) => boxThere ?? []),
  ];
  const labels = differing.flatMap(({ mark, boxHere, boxThere }) => {
    const words = boxThere ? (boxHere ? mark.name : `${mark.name}, only there`) : "only here";
    const of = boxThere ?? boxHere;
    if (!of) return [];
    const size = { width: textWidth(words, LABEL_SIZE) + 2 * LABEL_PAD, height: LABEL_HEIGHT };
    const others = taken.filter((box) => box !== boxThere);
    const place = labelPlace(of, size, others, screen, boxThere ? "inside" : "beside");
    taken.push(place);
    return [label(words, place)];
  });
  return { below, above: [...joins, ...frames, ...labels] };
}

function outline({ name }: ElementMark, box: Box, words: string): SceneNode {
  return node("g", { class: "there", "data-there": name, "data-words": words }, [
    node("title", {}, [words]),
    rect("there-fill", box, 2),
    rect("there-shade", box, 2),
    rect("there-edge", box, 2),
  ]);
}

/** In units of the drawing: at 420 pixels of width some 11 pixels high. */
const LABEL_SIZE = 19;
const LABEL_HEIGHT = 25;
const LABEL_PAD = 5;

function label(words: string, box: Box): SceneNode {
  return node("g", { class: "there-label" }, [
    rect("there-plate", box, 3),
    text("there-name", box.x + LABEL_PAD, box.y + LABEL_HEIGHT - 7, LABEL_SIZE, words),
  ]);
}

/** A dotted frame round an element. */
function onlyHere(box: Box): SceneNode {
  const frame = { x: box.x - 3, y: box.y - 3, width: box.width + 6, height: box.height + 6 };
  return node("g", { class: "here-only" }, [rect("there-shade", frame, 4), rect("here-edge", frame, 4)]);
}

/** From the element here to its cells there, from edge to edge; none where they all but cover each other. */
function arrow(from: Box, to: Box): SceneNode[] {
  const [a, b] = [centreOf(from), centreOf(to)];
  const [across, down] = [b.x - a.x, b.y - a.y];
  const length = Math.hypot(across, down);
  const [begin, end] = [length * shareInside(from, across, down), length * (1 - shareInside(to, across, down))];
  if (end - begin < 2 * HEAD) return [];
  const [x, y] = [across / length, down / length];
  const at = (distance: number, aside = 0) =>
    `${rounded(a.x + x * distance - y * aside)} ${rounded(a.y + y * distance + x * aside)}`;
  const line = `M${at(begin)}L${at(end - HEAD)}`;
  return [
    node("g", { class: "joins" }, [
      path("join-shade", line),
      path("join", line),
      node("circle", { class: "join-end", cx: a.x + x * begin, cy: a.y + y * begin, r: 4.5 }),
      path("join-end", `M${at(end)}L${at(end - HEAD, HEAD / 2)}L${at(end - HEAD, -HEAD / 2)}Z`),
    ]),
  ];
}

const HEAD = 15;

function centreOf({ x, y, width, height }: Box): { readonly x: number; readonly y: number } {
  return { x: x + width / 2, y: y + height / 2 };
}

/** Which part of a line from a box's centre lies inside the box. */
function shareInside({ width, height }: Box, across: number, down: number): number {
  return Math.min(1, across === 0 ? 1 : Math.abs(width / 2 / across), down === 0 ? 1 : Math.abs(height / 2 / down));
}
