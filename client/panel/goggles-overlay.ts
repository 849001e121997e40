/** What is drawn over the picture while an element moves: guides, cells in conflict, its position in words. */
import type { CellBox } from "../../shared/draw/moving.ts";
import type { GogglesPicture } from "../../shared/protocol/panel.ts";

/** Where the picture is on the page, and the size of its cells: in units of the drawing (`unit…`) and in CSS pixels. */
export interface PictureArea {
  readonly columns: number;
  readonly rows: number;
  readonly unitX: number;
  readonly unitY: number;
  readonly pxX: number;
  readonly pxY: number;
  readonly pageX: number;
  readonly pageY: number;
  /** From the frame's top left corner. */
  readonly left: number;
  readonly top: number;
  readonly frameWidth: number;
  readonly frameHeight: number;
}

/** Measures the picture in its frame; null where it is not drawn or not shown. */
export function measurePicture(frame: HTMLElement, { columns, rows }: GogglesPicture): PictureArea | null {
  const sky = frame.querySelector<SVGGraphicsElement>(".sky");
  if (!sky) return null;
  const [box, shown, outer] = [sky.getBBox(), sky.getBoundingClientRect(), frame.getBoundingClientRect()];
  if (shown.width === 0 || shown.height === 0) return null;
  return {
    columns,
    rows,
    unitX: box.width / columns,
    unitY: box.height / rows,
    pxX: shown.width / columns,
    pxY: shown.height / rows,
    pageX: shown.left + window.scrollX,
    pageY: shown.top + window.scrollY,
    left: shown.left - outer.left,
    top: shown.top - outer.top,
    frameWidth: outer.width,
    frameHeight: outer.height,
  };
}

/** The element that moves, and what the overlay shows about it. */
interface Moving {
  readonly box: CellBox;
  readonly where: string;
  /** What is wrong with that position; empty where nothing is. */
  readonly problem: string;
  /** How its position would be written in the script. */
  readonly placed: string | null;
}

export interface Overlay {
  paint(area: PictureArea, hatched: readonly (readonly [number, number])[], moving: Moving | null): void;
  clear(): void;
  /** Announces words to a screen reader, after a short time without newer ones. */
  announce(words: string): void;
}

const ANNOUNCE_AFTER_MS = 250;

/** The overlay of a frame; its parts are those that the view has rendered there. */
export function makeOverlay(frame: HTMLElement): Overlay {
  const part = <T extends Element>(name: string) => frame.querySelector<T>(`[data-part="${name}"]`);
  const hatch = part<SVGPathElement>("hatch");
  const guides = part<SVGPathElement>("guides");
  const touched = part<SVGPathElement>("met");
  const note = part<HTMLElement>("note");
  const problem = part<HTMLElement>("amiss");
  const live = part<HTMLElement>("live");
  let announcing = 0;

  return {
    paint(area, hatched, moving) {
      // Writing an unchanged attribute would make the browser restyle every element.
      if (!("moving" in frame.dataset)) frame.dataset.moving = "";
      const { unitX, unitY } = area;
      const cells = hatched.map(([column, row]) => `M${column * unitX} ${row * unitY}h${unitX}v${unitY}h${-unitX}Z`);
      setPath(hatch, [...new Set(cells)].join(""));
      setPath(guides, moving ? centreLines(area) : "");
      setPath(touched, moving ? touchedLines(area, moving.box) : "");
      if (moving && note) showNote(note, area, moving);
      if (note) setVisible(note, moving !== null);
      if (problem) setText(problem, moving?.problem ?? "");
    },
    clear() {
      delete frame.dataset.moving;
      for (const lines of [hatch, guides, touched]) setPath(lines, "");
      if (note) setVisible(note, false);
      if (problem) setText(problem, "");
    },
    announce(words) {
      clearTimeout(announcing);
      announcing = window.setTimeout(() => {
        if (live) live.textContent = words;
      }, ANNOUNCE_AFTER_MS);
    },
  };
}

function setPath(lines: SVGPathElement | null, d: string): void {
  if (lines && lines.getAttribute("d") !== d) lines.setAttribute("d", d);
}

function setVisible(part: HTMLElement, shown: boolean): void {
  if (part.hidden === shown) part.hidden = !shown;
}

function setText(part: Element, text: string): void {
  if (part.textContent !== text) part.textContent = text;
}

function centreLines({ columns, rows, unitX, unitY }: PictureArea): string {
  const [width, height] = [columns * unitX, rows * unitY];
  return `M${width / 2} 0V${height}M0 ${height / 2}H${width}`;
}

/** The edges and centre lines that the element touches, drawn stronger. */
function touchedLines({ columns, rows, unitX, unitY }: PictureArea, { column, row, width, height }: CellBox): string {
  const [right, bottom] = [columns * unitX, rows * unitY];
  const lines = [
    column === 0 && `M0 0V${bottom}`,
    column + width === columns && `M${right} 0V${bottom}`,
    column === Math.floor((columns - width) / 2) && `M${right / 2} 0V${bottom}`,
    row === 0 && `M0 0H${right}`,
    row + height === rows && `M0 ${bottom}H${right}`,
    row === Math.floor((rows - height) / 2) && `M0 ${bottom / 2}H${right}`,
  ];
  return lines.filter((line) => line !== false).join("");
}

/** Places the note beside the element, on the side towards the centre of the picture, where there is most room. */
function showNote(note: HTMLElement, area: PictureArea, { box, where, placed }: Moving): void {
  const [place, code] = note.children;
  if (place) setText(place, where);
  if (code) setText(code, placed ?? "");
  const x = area.left + box.column * area.pxX;
  const y = area.top + box.row * area.pxY;
  const onLeft = box.column + box.width / 2 <= area.columns / 2;
  const above = box.row + box.height / 2 > area.rows / 2;
  const gap = 6;
  const { style } = note;
  style.left = onLeft ? `${Math.max(0, x)}px` : "auto";
  style.right = onLeft ? "auto" : `${Math.max(0, area.frameWidth - x - box.width * area.pxX)}px`;
  style.top = above ? "auto" : `${y + box.height * area.pxY + gap}px`;
  style.bottom = above ? `${area.frameHeight - y + gap}px` : "auto";
}
