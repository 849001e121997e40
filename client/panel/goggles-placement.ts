/**
 * Where the elements stand while the page is ahead of the model: one moves, or was dropped and the
 * script has yet to follow. Only attributes of drawn groups and of the overlay change here.
 */
import { type Cell, clashInWords, clashOf, elementAt, placedAfter, placeInWords } from "../../shared/draw/moving.ts";
import type { GogglesPicture, OsdGesture, PanelElement } from "../../shared/protocol/panel.ts";
import { makeOverlay, measurePicture, type PictureArea } from "./goggles-overlay.ts";

/** What is given with every drawing. */
export interface GogglesDrawing {
  readonly picture: GogglesPicture;
  /** What is drawn: another craft's elements, or another page's, are others even where the names are the same. */
  readonly subject: string;
  /** Tells the host of an element that was dropped. */
  readonly reportMove: (gesture: OsdGesture) => void;
  /** A press without a movement. */
  readonly press: (element: PanelElement) => void;
  readonly remove: (element: PanelElement) => void;
}

/** A place that the model does not have (yet). */
interface Displaced extends Cell {
  readonly reported: boolean;
}

/** How long a dropped element waits where it was dropped after a model that has it elsewhere. */
const SETTLE_MS = 600;

export type Placement = ReturnType<typeof makePlacement>;

/** Watches nothing by itself: its mover tells it of every drawing and every gesture. */
export function makePlacement(frame: HTMLElement) {
  const overlay = makeOverlay(frame);
  const displaced = new Map<string, Displaced>();
  let groups = new Map<string, SVGGElement>();
  let shifted = new Set<SVGGElement>();
  let shown: GogglesDrawing | null = null;
  let area: PictureArea | null = null;
  let moving: string | null = null;
  let hovered: SVGGElement | undefined;
  let settleTimer = 0;

  const elementOf = (name: string | null | undefined) =>
    shown?.picture.elements.find((element) => element.name === name);
  const placeOf = (element: PanelElement): Cell => {
    const { column, row } = displaced.get(element.name) ?? element;
    return { column, row };
  };
  const currentElements = () => (shown?.picture.elements ?? []).map((element) => ({ ...element, ...placeOf(element) }));
  const measure = () => {
    if (shown) area = measurePicture(frame, shown.picture) ?? area;
  };

  const shift = (by: PictureArea) => {
    const now = new Set<SVGGElement>();
    for (const [name, to] of displaced) {
      const [group, element] = [groups.get(name), elementOf(name)];
      if (!group || !element) continue;
      const [x, y] = [(to.column - element.column) * by.unitX, (to.row - element.row) * by.unitY];
      group.setAttribute("transform", `translate(${x} ${y})`);
      if (!shifted.has(group)) group.dataset.moving = "";
      now.add(group);
    }
    for (const group of shifted) {
      if (now.has(group)) continue;
      group.removeAttribute("transform");
      delete group.dataset.moving;
    }
    shifted = now;
  };
  const paint = () => {
    if (!shown || !area) return;
    shift(area);
    const elements = currentElements();
    const mover = elements.find(({ name }) => name === moving);
    if (displaced.size === 0 && !mover) return overlay.clear();
    const clashes = elements.map((element) => clashOf(element, elements, shown!.picture));
    const hatched = clashes.flatMap(({ cells }) => cells);
    const model = elementOf(moving);
    if (!mover || !model) return overlay.paint(area, hatched, null);
    const where = placeInWords(mover, shown.picture);
    const problem = clashInWords(clashes[elements.indexOf(mover)]!);
    const by = { column: mover.column - model.column, row: mover.row - model.row };
    overlay.paint(area, hatched, { box: mover, where, problem, placed: placedAfter(model.placed, by) });
    overlay.announce(problem === "" ? where : `${where}; ${problem}`);
  };

  return {
    elementOf,
    placeOf,
    measure,
    shown: () => shown,
    area: () => area,
    focus: (name: string) => groups.get(name)?.focus({ preventScroll: true }),
    /** The element meant by a point of the page, the focused one before others. */
    under(pageX: number, pageY: number): PanelElement | null {
      if (!area) return null;
      const column = Math.floor((pageX - area.pageX) / area.pxX);
      const row = Math.floor((pageY - area.pageY) / area.pxY);
      const focused = document.activeElement?.closest<SVGElement>("[data-element]")?.dataset.element;
      return elementOf(elementAt(currentElements(), { column, row }, focused ?? null)?.name) ?? null;
    },
    /** Shows which element a press would mean, or none. */
    hover(name: string | undefined): void {
      const group = groups.get(name ?? "");
      if (group === hovered) return;
      delete hovered?.dataset.under;
      // A pen is over an element before it touches: by then it must not scroll.
      frame.toggleAttribute("data-over", group !== undefined);
      if (group) group.dataset.under = "";
      hovered = group;
    },
    /** The element moves from now on: the guides are shown, and where it is. */
    begin(name: string): void {
      moving = name;
      paint();
    },
    moveTo(name: string, to: Cell): void {
      const element = elementOf(name);
      if (!element) return;
      const previous = placeOf(element);
      if (previous.column === to.column && previous.row === to.row) return;
      displaced.set(name, { ...to, reported: false });
      paint();
    },
    /** Ends a movement where it is: the host is told, unless the element is back where it was. */
    drop(name: string): void {
      const [element, to] = [elementOf(name), displaced.get(name)];
      moving = null;
      if (!element || !to || (to.column === element.column && to.row === element.row)) displaced.delete(name);
      else if (!to.reported) {
        displaced.set(name, { ...to, reported: true });
        shown?.reportMove({ kind: "move", element: name, column: to.column, row: to.row });
      }
      paint();
    },
    revert(name: string): void {
      moving = null;
      displaced.delete(name);
      paint();
      overlay.announce("Back where it was.");
    },
    /** Takes the drawing that has just been made; what was dropped stays until a model has taken it. */
    show(next: GogglesDrawing): void {
      const isNew = shown?.picture !== next.picture;
      if (shown?.subject !== next.subject) displaced.clear();
      shown = next;
      if (!isNew) return;
      const all = frame.querySelectorAll<SVGGElement>("[data-element]");
      groups = new Map([...all].map((group) => [group.dataset.element ?? "", group]));
      measure();
      for (const [name, to] of displaced) {
        const element = elementOf(name);
        const isTaken = to.reported && element?.column === to.column && element.row === to.row;
        if (!element || isTaken) displaced.delete(name);
      }
      clearTimeout(settleTimer);
      // A model from before the edit may still come in between; one that stays so has not taken it.
      settleTimer = window.setTimeout(() => {
        for (const [name, { reported }] of displaced) if (reported) displaced.delete(name);
        paint();
      }, SETTLE_MS);
      paint();
    },
    dispose(): void {
      clearTimeout(settleTimer);
      overlay.clear();
    },
  };
}
