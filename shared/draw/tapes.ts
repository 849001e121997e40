/** Scales that slide past a mark: a vertical one for heights and speeds, a horizontal one for the compass. */
import { lettersIn } from "./row.ts";
import { type Box, path, rounded, type SceneNode } from "./scene.ts";

/** Cells between two ticks of the vertical scale. */
const CELLS_A_STEP = 1.5;

/** A spine with a tick at every step, and the value at the mark in the middle. */
export function drawScale(
  box: Box,
  cells: { readonly width: number; readonly height: number },
  { value, step }: { readonly value: number; readonly step: number },
): SceneNode[] {
  const cell = { width: box.width / cells.width, height: box.height / cells.height };
  const middleY = box.y + box.height / 2;
  const spineX = box.x + cell.width * 0.5;
  const perUnit = (cell.height * CELLS_A_STEP) / step;
  const room = box.height / 2 - 3;
  const first = Math.ceil((value - room / perUnit) / step);
  const last = Math.floor((value + room / perUnit) / step);
  const ticks: string[] = [];
  for (let index = first; index <= last; index++) {
    const y = middleY - (index * step - value) * perUnit;
    ticks.push(`M${rounded(spineX)} ${rounded(y)}h${rounded(cell.width * (index % 2 === 0 ? 1.4 : 0.7))}`);
  }
  const spine = `M${rounded(spineX)} ${rounded(box.y + 3)}v${rounded(box.height - 6)}`;
  const pointerX = spineX + cell.width * 0.3;
  const pointer = `M${rounded(pointerX)} ${rounded(middleY)}l${rounded(cell.width * 0.6)}-6v12Z`;
  const text = String(Math.round(value)).slice(0, Math.max(1, cells.width - 2));
  const corner = { x: box.x + cell.width * 1.7, y: middleY - cell.height / 2 };
  return [path("faint", `${spine}${ticks.join("")}`), path("solid", pointer), lettersIn(text, corner, cell)];
}

/** Degrees that the compass shows. */
const SPAN_DEG = 120;
const WINDS = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"] as const;

/** A tick every fifteen degrees, the directions by their letters, and a mark at the heading. */
export function drawCompass(box: Box, columns: number, headingDeg: number): SceneNode[] {
  const perDeg = (box.width - 6) / SPAN_DEG;
  const middleX = box.x + box.width / 2;
  const foot = box.y + box.height * 0.9;
  const small = { width: (box.width / columns) * 0.62, height: box.height * 0.62 };
  const ticks: string[] = [];
  const letters: SceneNode[] = [];
  const first = Math.ceil((headingDeg - SPAN_DEG / 2) / 15);
  for (let index = first; index * 15 <= headingDeg + SPAN_DEG / 2; index++) {
    const x = middleX + (index * 15 - headingDeg) * perDeg;
    const wind = index % 3 === 0 ? WINDS[(((index / 3) % 8) + 8) % 8]! : "";
    ticks.push(`M${rounded(x)} ${rounded(foot)}v${rounded(-box.height * (wind ? 0.3 : 0.16))}`);
    const half = (wind.length * small.width) / 2;
    const isWithin = x - half >= box.x && x + half <= box.x + box.width && Math.abs(x - middleX) > half + 6;
    if (wind && isWithin) letters.push(lettersIn(wind, { x: x - half, y: box.y - small.height * 0.06 }, small));
  }
  const line = `M${rounded(box.x + 3)} ${rounded(foot)}h${rounded(box.width - 6)}`;
  const pointer = `M${rounded(middleX)} ${rounded(foot - box.height * 0.28)}l-5 ${rounded(-box.height * 0.44)}h10Z`;
  return [path("faint", `${line}${ticks.join("")}`), path("solid", pointer), ...letters];
}
