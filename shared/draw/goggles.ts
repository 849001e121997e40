/** The picture that the pilot will see: sky and ground as the craft leans, and the elements in their cells. */

import type { GogglesAgainst } from "../protocol/against.ts";
import type { Grid } from "../protocol/osd.ts";
import type { GogglesPicture, LinePlace, PanelElement } from "../protocol/panel.ts";
import { type Cells, differingElements } from "./differing.ts";
import { drawFigure } from "./figures.ts";
import { rowPath } from "./glyphs.ts";
import { drawThere, thereStripes } from "./goggles-against.ts";
import { drawScenery, type HorizonLine, horizonIn } from "./horizon.ts";
import { lettersIn } from "./row.ts";
import { type Box, node, path, rect, rounded, type SceneNode } from "./scene.ts";

export interface GogglesOptions {
  /** The line in the script whose element is marked. */
  readonly marked?: LinePlace | null;
  /** What differs from it on the other side of a comparison, drawn into it. */
  readonly against?: GogglesAgainst | null | undefined;
}

const PICTURE_HEIGHT = 540;
/** The most cells outside the grid that are drawn, so that one long text does not shrink the rest. */
const MOST_CELLS_OFF = 6;

/** The picture as one SVG at its own aspect ratio, with a margin where elements leave the grid. */
export function drawGoggles(picture: GogglesPicture, options: GogglesOptions = {}): SceneNode {
  const screen: Box = { x: 0, y: 0, width: PICTURE_HEIGHT * picture.aspect, height: PICTURE_HEIGHT };
  const cell = { width: screen.width / picture.columns, height: screen.height / picture.rows };
  const elements = picture.elements.map((element) =>
    drawElement(element, cell, isMarked(element, options.marked), screen.width),
  );
  const { against } = options;
  const cellsThere = against ? differingElements(picture, against).flatMap((each) => each.cellsThere ?? []) : [];
  const there = against && drawThere(picture, against, (cells) => boxOf(cells, cell), screen);
  return node(
    "svg",
    { viewBox: viewBox([...picture.elements, ...cellsThere], picture, cell, screen), class: "goggles" },
    [
      node("defs", {}, [hatch, ...(there ? [thereStripes] : [])]),
      ...drawScenery(screen, sceneryHorizon(picture, cell)),
      rect("rim", { x: 1, y: 1, width: screen.width - 2, height: screen.height - 2 }),
      ...drawSafe(picture, cell),
      ...(there?.below ?? []),
      ...elements,
      ...(there?.above ?? []),
    ],
  );
}

/** The size of the display's line in cells. */
const HORIZON = { width: 14, height: 7 };

/** The scenery's horizon, on which the display's line lies where it stands in the middle. */
function sceneryHorizon({ columns, rows, attitude }: GogglesPicture, cell: DrawnCell): HorizonLine {
  const column = Math.floor((columns - HORIZON.width) / 2);
  const row = Math.floor((rows - HORIZON.height) / 2);
  return horizonIn(boxOf({ column, row, ...HORIZON }, cell), attitude);
}

interface DrawnCell {
  readonly width: number;
  readonly height: number;
}

const hatch = node(
  "pattern",
  { id: "hatch", width: 8, height: 8, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
  [rect("hatch-ground", { x: 0, y: 0, width: 8, height: 8 }), rect("hatch-line", { x: 0, y: 0, width: 3, height: 8 })],
);

function isMarked(element: PanelElement, marked: LinePlace | null | undefined): boolean {
  return marked != null && marked.file === element.at.file && marked.line === element.at.line;
}

function viewBox(elements: readonly Cells[], { columns, rows }: Grid, cell: DrawnCell, screen: Box): string {
  const reach = (cellsOff: readonly number[]) => Math.min(MOST_CELLS_OFF, Math.max(0, ...cellsOff));
  const left = reach(elements.map(({ column }) => -column)) * cell.width;
  const top = reach(elements.map(({ row }) => -row)) * cell.height;
  const right = reach(elements.map(({ column, width }) => column + width - columns)) * cell.width;
  const bottom = reach(elements.map(({ row, height }) => row + height - rows)) * cell.height;
  const corner = [-left, -top];
  const size = [screen.width + left + right, screen.height + top + bottom];
  return [...corner, ...size].map(rounded).join(" ");
}

function drawSafe({ safe }: GogglesPicture, cell: DrawnCell): SceneNode[] {
  if (!safe) return [];
  const size = {
    column: safe.left,
    row: safe.top,
    width: safe.right - safe.left + 1,
    height: safe.bottom - safe.top + 1,
  };
  return [rect("safe", boxOf(size, cell), 4)];
}

function boxOf(at: Cells, cell: DrawnCell): Box {
  return {
    x: at.column * cell.width,
    y: at.row * cell.height,
    width: at.width * cell.width,
    height: at.height * cell.height,
  };
}

function drawElement(element: PanelElement, cell: DrawnCell, marked: boolean, screenWidth: number): SceneNode {
  const box = boxOf(element, cell);
  const hatched = element.clashing.map(([column, row]) =>
    rect("hatched", boxOf({ column, row, width: 1, height: 1 }, cell)),
  );
  const content =
    element.drawn === "text"
      ? element.text.flatMap((row, index) =>
          rowPath(row) === "" ? [] : [lettersIn(row, { x: box.x, y: box.y + index * cell.height }, cell)],
        )
      : drawFigure(element, box);
  const className = [
    "element",
    ...(element.blank ? ["blank"] : []),
    ...(marked ? ["marked"] : []),
    ...(hatched.length > 0 ? ["amiss"] : []),
    ...(element.flashes ? ["flashes"] : []),
  ].join(" ");
  return node("g", { class: className, "data-element": element.name, "data-line": element.at.line }, [
    rect("plate", box, 2),
    ...hatched,
    ...content,
    ...(hatched.length > 0 ? [path("amiss-edge", edge(box))] : []),
    ...faultMark(element, box, screenWidth),
  ]);
}

/** The side of the mark in units of the drawing: at 250 pixels of width it is still six pixels wide. */
const MARK = 28;

/** What is wrong is marked by a tab with an exclamation mark, on the element's upper right corner inside the picture. */
function faultMark({ faults }: PanelElement, { x, y, width }: Box, screenWidth: number): SceneNode[] {
  const shown = faults.filter(({ marked }) => marked);
  if (shown.length === 0) return [];
  const left = Math.max(0, Math.min(screenWidth - MARK, x + width - 3));
  const top = Math.max(0, y - MARK / 2);
  const middle = rounded(left + MARK / 2);
  return [
    node("g", { class: "fault" }, [
      node("title", {}, [shown.map(({ message }) => message).join("\n")]),
      rect("fault-ground", { x: left, y: top, width: MARK, height: MARK }, 5),
      path("fault-sign", `M${middle} ${rounded(top + 6)}v9M${middle} ${rounded(top + 20.5)}v1`),
    ]),
  ];
}

function edge({ x, y, width, height }: Box): string {
  return `M${rounded(x)} ${rounded(y)}h${rounded(width)}v${rounded(height)}h${rounded(-width)}Z`;
}
