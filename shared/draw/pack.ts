/** A pack's thresholds on the scale of one cell, and how long what may be used of it lasts. */
import type { PackPicture } from "../protocol/numbers.ts";
import { evenScale } from "./scale.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { listed } from "./words.ts";
import { text, widthOf } from "./writing.ts";

const SIZE = 12;
const rowHeight = 20;
const barTop = 40;
const barHeight = 16;

/** The scale as a bar: what the cell bears is filled, and each threshold has its line and its words. */
export function drawPack(picture: PackPicture, { width = 520 }: { readonly width?: number } = {}): SceneNode {
  const marks = [...picture.marks].sort((a, b) => a.cellV - b.cellV);
  const labels = marks.map(({ name, cellV }) => `${name} ${voltsInWords(cellV, picture.cells)}`);
  const room = Math.max(60, width - Math.max(30, ...labels.map((label) => widthOf(label, SIZE))) - 16);
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
  const height = foot + 24 + marks.length * rowHeight;
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${height}`, class: "pack" }, [
    node("g", { class: "chart", role: "img", "aria-label": packInWords(picture) }, [
      text("chart-title", 0, 13, 13, titleOf(picture)),
      rect("pack-scale", { x: 8, y: barTop, width: room, height: barHeight }),
      ...filled,
      ...scale.ticks.map((tick) => text("small", x(tick), barTop - 7, 11, scale.label(tick), "middle")),
      ...drops,
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
  const { marks, cells, bears, usableMah, hoverS, fullS } = picture;
  const said = [`${titleOf(picture)}.`];
  if (bears) said.push(`A cell bears ${bears.fromCellV.toFixed(2)} to ${bears.toCellV.toFixed(2)} V.`);
  said.push(...marks.map(({ name, cellV }) => `${name} ${voltsInWords(cellV, cells)}.`));
  const times = [
    ...(hoverS === null ? [] : [`${clock(hoverS)} in the hover`]),
    ...(fullS === null ? [] : [`${clock(fullS)} at full current`]),
  ];
  if (usableMah !== null && times.length > 0) said.push(`${Math.round(usableMah)} mAh to use last ${listed(times)}.`);
  return said.join(" ");
}

function clock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
