/** A pack's thresholds on the scale of one cell, and how long what may be used of it lasts. */
import type { PackPicture } from "../protocol/numbers.ts";
import { evenScale } from "./scale.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text, widthOf } from "./writing.ts";

const SIZE = 12;
const rowHeight = 20;
const barTop = 40;
const barHeight = 16;

/** The scale as a bar: what the cell bears is filled, and each threshold has its line and its words. */
export function drawPack(picture: PackPicture, { width = 520 }: { readonly width?: number } = {}): SceneNode {
  const marks = [...picture.marks].sort((a, b) => a.cellV - b.cellV);
  const labels = marks.map(({ name, cellV }) => `${name} ${voltsInWords(cellV, picture.cells)}`);
  const room = Math.max(
    60,
    width - Math.max(widthOf("V/cell", SIZE) + 10, ...labels.map((label) => widthOf(label, SIZE))) - 16,
  );
  const { bears } = picture;
  const volts = [...marks.map(({ cellV }) => cellV), ...(bears ? [bears.fromCellV, bears.toCellV] : [])];
  const scale = evenScale({ name: "cell", unit: "V" }, Math.min(2.5, ...volts), Math.max(4.5, ...volts), 4);
  const x = (cellV: number) => 8 + scale.share(cellV) * room;
  const filled = bears
    ? [
        rect("pack-bears", {
          x: x(bears.fromCellV),
          y: barTop,
          width: x(bears.toCellV) - x(bears.fromCellV),
          height: barHeight,
        }),
      ]
    : [];
  const foot = barTop + barHeight;
  // The lowest threshold has the lowest words, so that no line crosses the words of another.
  const drops = marks.flatMap(({ cellV }, index) => {
    const y = foot + 16 + (marks.length - index) * rowHeight;
    return [
      path("pack-mark", `M${rounded(x(cellV))} ${barTop - 3}V${rounded(y - 4)}h5`),
      text("pack-label", x(cellV) + 8, y, SIZE, labels[index]!),
    ];
  });
  const times = timesInWords(picture);
  const under = foot + 16 + (marks.length + 1) * rowHeight;
  const height = under - rowHeight + 8 + times.length * rowHeight;
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${height}`, class: "pack" }, [
    node("g", { class: "chart", role: "img", "aria-label": packInWords(picture) }, [
      text("chart-title", 0, 13, 13, titleOf(picture)),
      rect("pack-scale", { x: 8, y: barTop, width: room, height: barHeight }),
      ...filled,
      text("small", 8 + room + 16, barTop - 7, 11, "V/cell"),
      ...scale.ticks.map((tick) => text("small", x(tick), barTop - 7, 11, scale.label(tick), "middle")),
      ...drops,
      ...times.map((time, index) => text("small", 8, under + index * rowHeight, SIZE, time)),
    ]),
  ]);
}

function titleOf({ section, cells, capacityMah }: PackPicture): string {
  const name = section.startsWith("pack/") ? section.slice("pack/".length) : "pack";
  const facts = [
    ...(cells === null ? [] : [`${cells} cells`]),
    ...(capacityMah === null ? [] : [`${capacityMah} mAh`]),
  ];
  return [name, ...facts].join(", ");
}

function voltsInWords(cellV: number, cells: number | null): string {
  return `${cellV.toFixed(2)} V/cell${cells === null ? "" : `, ${(cellV * cells).toFixed(1)} V`}`;
}

/** The pack as one says it. */
export function packInWords(picture: PackPicture): string {
  const { marks, cells, bears } = picture;
  const said = [`${titleOf(picture)}.`];
  if (bears) said.push(`A cell bears ${bears.fromCellV.toFixed(2)} to ${bears.toCellV.toFixed(2)} V.`);
  said.push(...marks.map(({ name, cellV }) => `${name} ${voltsInWords(cellV, cells)}.`));
  return [...said, ...timesInWords(picture).map((time) => `${time}.`)].join(" ");
}

/** How long what may be used lasts, as far as that is known. */
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
