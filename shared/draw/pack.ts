/** A pack's thresholds on a vertical scale, each beside its usual range, and how long the usable charge lasts. */
import type { PackMark, PackPicture } from "../protocol/numbers.ts";
import { apart } from "./apart.ts";
import { evenScale, type Scale } from "./scale.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text } from "./writing.ts";

const SIZE = 11;
const PLOT_HEIGHT = 170;
const BAR_WIDTH = 14;
/** Distance between the usual ranges of two thresholds. */
const STEP = 12;
/** About the greatest width of a threshold's words. */
const MOST_REACH = 210;
/** Below this width the words of a threshold take two lines, and the scale of the whole pack is omitted. */
const NARROW = 350;

export interface PackOptions {
  readonly width?: number;
  /** `none` if the page has a heading of its own. */
  readonly heading?: "drawn" | "none";
}

interface Label {
  readonly name: string;
  readonly cellV: number;
  readonly mark: PackMark | null;
  /** The column of its usual range, from 0; null for a limit, which is marked on the bar. */
  readonly column: number | null;
}

/**
 * The range that a cell tolerates is filled. Each threshold has a bar for its usual range, a dot
 * at its value, and words; a dot beyond the bar's ends is unusual.
 */
export function drawPack(picture: PackPicture, { width = 520, heading = "drawn" }: PackOptions = {}): SceneNode {
  const { bears, cells } = picture;
  const marks = [...picture.marks].sort((a, b) => b.cellV - a.cellV);
  const volts = [...marks.map(({ cellV }) => cellV), ...(bears ? [bears.fromCellV, bears.toCellV] : [])];
  const scale = evenScale({ name: "cell", unit: "V" }, Math.min(2.5, ...volts), Math.max(4.5, ...volts), 4);
  const top = (heading === "drawn" ? 22 : 0) + 18;
  const y = (cellV: number) => top + (1 - scale.share(cellV)) * PLOT_HEIGHT;
  const isNarrow = width < NARROW;
  // For one cell, the pack's volts are the cell's.
  const scaled = cells === 1 || isNarrow ? null : cells;
  const tickRight = scaled === null ? 38 : 72;
  const barLeft = tickRight + 6;
  const firstColumn = barLeft + BAR_WIDTH + 12;
  const labelLeft = firstColumn + marks.length * STEP + 12;
  const labels: Label[] = [
    ...marks.map((mark, column) => ({ name: mark.name, cellV: mark.cellV, mark, column })),
    ...(bears ? [limit("charge limit", bears.toCellV), limit("cut-off", bears.fromCellV)] : []),
  ];
  const rowHeight = isNarrow ? 27 : 15;
  const ys = apart(
    labels.map(({ cellV }) => y(cellV)),
    rowHeight,
    { from: top - 2, to: top + PLOT_HEIGHT + 4 },
  );
  const drawn = labels.map((label, index) => {
    const from = label.column === null ? barLeft + BAR_WIDTH : firstColumn + label.column * STEP;
    return drawLabel(label, {
      from,
      y: y(label.cellV),
      labelLeft,
      labelY: ys[index]!,
      cells,
      isNarrow,
      rowHeight,
      width,
    });
  });
  const notes = packNotes(picture);
  const under = Math.max(top + PLOT_HEIGHT, ...ys.map((each) => each + rowHeight / 2)) + 22;
  const height = under + Math.max(0, notes.length - 1) * 17 + 8;
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`, class: "pack" }, [
    node("g", { class: "chart", role: "group", "aria-label": packInWords(picture) }, [
      ...(heading === "drawn" ? [text("chart-title", 0, 13, 13, titleOf(picture))] : []),
      ...ticks(scale, y, tickRight, scaled, top),
      rect("pack-scale", { x: barLeft, y: top, width: BAR_WIDTH, height: PLOT_HEIGHT }),
      ...(bears
        ? [
            rect("pack-bears", {
              x: barLeft,
              y: y(bears.toCellV),
              width: BAR_WIDTH,
              height: y(bears.fromCellV) - y(bears.toCellV),
            }),
          ]
        : []),
      ...marks.flatMap(({ usual }, column) => (usual ? [usualBar(firstColumn + column * STEP, usual, y)] : [])),
      ...drawn,
      ...notes.map((note, index) => text("small", 0, under + index * 17, SIZE, note)),
    ]),
  ]);
}

function limit(name: string, cellV: number): Label {
  return { name, cellV, mark: null, column: null };
}

function ticks(scale: Scale, y: (cellV: number) => number, right: number, cells: number | null, top: number) {
  const perPack = 28;
  return [
    text("small", right, top - 10, SIZE, "V/cell", "end"),
    ...scale.ticks.map((tick) => text("small", right, y(tick) + 4, SIZE, tick.toFixed(1), "end")),
    ...(cells === null
      ? []
      : [
          text("small", perPack, top - 10, SIZE, "V", "end"),
          ...scale.ticks.map((tick) =>
            text("small", perPack, y(tick) + 4, SIZE, String(Number((tick * cells).toFixed(1))), "end"),
          ),
        ]),
  ];
}

function usualBar(x: number, { fromCellV, toCellV }: NonNullable<PackMark["usual"]>, y: (cellV: number) => number) {
  const [from, to] = [y(toCellV), y(fromCellV)].map(rounded) as [number, number];
  return path("pack-usual", `M${rounded(x - 3)} ${from}h6m-3 0V${to}m-3 0h6`);
}

interface Where {
  readonly from: number;
  readonly y: number;
  readonly labelLeft: number;
  readonly labelY: number;
  readonly cells: number | null;
  readonly isNarrow: boolean;
  readonly rowHeight: number;
  readonly width: number;
}

function drawLabel({ name, cellV, mark }: Label, where: Where): SceneNode {
  const { from, y, labelLeft, labelY, cells, isNarrow, rowHeight, width } = where;
  const volts = voltsInWords(cellV, cells);
  const leader = `M${rounded(from)} ${rounded(y)}H${rounded(labelLeft - 9)}L${rounded(labelLeft - 3)} ${rounded(labelY)}`;
  const own = mark ? "pack-label" : "small";
  const words = isNarrow
    ? [text(own, labelLeft, labelY - 2, SIZE, name), text("small", labelLeft, labelY + 11, SIZE, volts)]
    : [text(own, labelLeft, labelY + 4, SIZE, `${name} ${volts}`)];
  const dot = `M${rounded(from - 3.5)} ${rounded(y)}a3.5 3.5 0 0 1 7 0a3.5 3.5 0 0 1-7 0z`;
  const reachWidth = Math.min(width - labelLeft + 2, MOST_REACH);
  const reach = { x: labelLeft - 2, y: labelY - rowHeight / 2, width: reachWidth, height: rowHeight };
  return node("g", { class: mark ? "threshold" : "pack-limit", "data-mark": mark ? name : null }, [
    ...(mark ? [rect("reach", reach)] : []),
    path("pack-leader", leader),
    ...(mark ? [path("pack-dot", dot)] : []),
    ...words,
  ]);
}

/** The pack's name in the script, or “pack” for the plain one. */
export function packName({ section }: PackPicture): string {
  return section.startsWith("pack/") ? section.slice("pack/".length) : "pack";
}

/** Cells and capacity as far as they are set, else the chemistry. */
export function packFacts({ cells, capacityMah, chemistry }: PackPicture): string {
  const facts = [
    ...(cells === null ? [] : [cells === 1 ? "1 cell" : `${cells} cells`]),
    ...(capacityMah === null ? [] : [`${capacityMah} mAh`]),
  ];
  return facts.length > 0 ? facts.join(", ") : (chemistry ?? "");
}

function titleOf(picture: PackPicture): string {
  return [packName(picture), packFacts(picture)].filter((each) => each !== "").join(", ");
}

function voltsInWords(cellV: number, cells: number | null): string {
  return `${cellV.toFixed(2)} V/cell${cells === null || cells === 1 ? "" : `, ${(cellV * cells).toFixed(1)} V`}`;
}

/** The pack in words. */
export function packInWords(picture: PackPicture): string {
  const { marks, cells, bears } = picture;
  const sentences = [`${titleOf(picture)}.`];
  if (bears) sentences.push(`A cell may have ${bears.fromCellV.toFixed(2)} to ${bears.toCellV.toFixed(2)} V.`);
  sentences.push(...marks.map(({ name, cellV }) => `${name} ${voltsInWords(cellV, cells)}.`));
  return [...sentences, ...timesInWords(picture).map((time) => `${time}.`)].join(" ");
}

/** A row for each threshold and limit: its name, the volts of a cell and of the pack, and its usual range. */
export function packTableRows({ marks, cells, bears }: PackPicture): string[][] {
  const row = (name: string, cellV: number, usual: PackMark["usual"]) => [
    name,
    cellV.toFixed(2),
    cells === null ? "not known" : (cellV * cells).toFixed(cells === 1 ? 2 : 1),
    usual ? `${usual.fromCellV.toFixed(1)} to ${usual.toCellV.toFixed(1)}` : "",
  ];
  return [
    ...(bears ? [row("charge limit", bears.toCellV, null)] : []),
    ...[...marks].sort((a, b) => b.cellV - a.cellV).map(({ name, cellV, usual }) => row(name, cellV, usual)),
    ...(bears ? [row("cut-off", bears.fromCellV, null)] : []),
  ];
}

function packNotes(picture: PackPicture): string[] {
  const { marks, chemistry, bears } = picture;
  // An empty scale would look like a fault of the drawing.
  if (marks.length === 0 && !bears) return ["no chemistry and no thresholds yet", ...timesInWords(picture)];
  const isUsualDrawn = chemistry !== null && marks.some(({ usual }) => usual);
  return [...(isUsualDrawn ? [`bars: usual for ${chemistry}`] : []), ...timesInWords(picture)];
}

/** How long the usable charge lasts, as far as it is known. */
function timesInWords({ usableMah, hoverS, fullS }: PackPicture): string[] {
  if (usableMah === null) return [];
  const charge = `${Math.round(usableMah)} mAh`;
  return [
    ...(hoverS === null ? [] : [`${charge} last ${clock(hoverS)} in the hover`]),
    ...(fullS === null ? [] : [`${charge} last ${clock(fullS)} at full current`]),
  ];
}

function clock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
