/**
 * Where the elements are drawn while the page is ahead of the model: one is being moved, or was dropped and the
 * script is not changed yet. Only attributes of rendered groups and of the overlay are changed here.
 */
import { clashInWords, elementAt, elementClash, placedAfter, placeInWords } from "../../shared/draw/moving.ts";
import type { GridCell } from "../../shared/protocol/osd.ts";
import type { OsdGesture } from "../../shared/protocol/osd-edit.ts";
import type { GogglesPicture, PanelElement } from "../../shared/protocol/panel.ts";
import { makeOverlay, measurePicture, type PictureArea } from "./goggles-overlay.ts";

/** A rendered picture, and the callbacks for gestures on it. */
export interface GogglesDrawing {
  readonly picture: GogglesPicture;
  /** Identifies craft and page: with another one, elements of the same name are different elements. */
  readonly subject: string;
  /** Reports to the host that an element was dropped. */
  readonly reportMove: (gesture: OsdGesture) => void;
  /** A press without a movement. */
  readonly press: (element: PanelElement) => void;
  readonly remove: (element: PanelElement) => void;
}

/** A position that the model does not have, or not yet. */
interface Displaced extends GridCell {
  readonly reported: boolean;
}

/** How long a dropped element stays where it was dropped after a model that has it elsewhere. */
const SETTLE_MS = 600;

export type Placement = ReturnType<typeof makePlacement>;

/** Has no event listeners of its own: its mover passes on every drawing and every gesture. */
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
  const placeOf = (element: PanelElement): GridCell => {
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
    const clashes = elements.map((element) => elementClash(element, elements, shown!.picture));
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
    /** The element at a point of the page; of several the focused one. */
    under(pageX: number, pageY: number): PanelElement | null {
      if (!area) return null;
      const column = Math.floor((pageX - area.pageX) / area.pxX);
      const row = Math.floor((pageY - area.pageY) / area.pxY);
      const focused = document.activeElement?.closest<SVGElement>("[data-element]")?.dataset.element;
      return elementOf(elementAt(currentElements(), { column, row }, focused ?? null)?.name) ?? null;
    },
    /** Highlights the element that a press would hit, or none. */
    hover(name: string | undefined): void {
      const group = groups.get(name ?? "");
      if (group === hovered) return;
      delete hovered?.dataset.under;
      // A pen hovers before it touches; from then on it must not scroll the page.
      frame.toggleAttribute("data-over", group !== undefined);
      if (group) group.dataset.under = "";
      hovered = group;
    },
    /** Starts a movement: from now on the guides and the element's position are shown. */
    begin(name: string): void {
      moving = name;
      paint();
    },
    moveTo(name: string, to: GridCell): void {
      const element = elementOf(name);
      if (!element) return;
      const previous = placeOf(element);
      if (previous.column === to.column && previous.row === to.row) return;
      displaced.set(name, { ...to, reported: false });
      paint();
    },
    /** Ends a movement. It is reported to the host, unless the element is back where the model has it. */
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
    /** Takes over a new drawing; a dropped element keeps its new position until a model has it there. */
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
      // A model from before the edit may still arrive; if none with the new position follows, the edit was not made.
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
