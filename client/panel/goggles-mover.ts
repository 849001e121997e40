/** Gestures on the picture: elements dragged with a pointer, moved with keys, pressed, removed. */
import { movedBy } from "../../shared/draw/moving.ts";
import type { GridCell } from "../../shared/protocol/osd.ts";
import type { PanelElement } from "../../shared/protocol/panel.ts";
import { type GogglesDrawing, makePlacement } from "./goggles-placement.ts";

export interface Mover {
  /** Takes over the drawing that has just been rendered. */
  show(shown: GogglesDrawing): void;
  /** Cancels a movement that is not reported to the host yet; returns whether there was one. */
  cancel(): boolean;
  focus(name: string): void;
  /** Moves an element by a step, as a press of an arrow key does. */
  nudge(name: string, by: GridCell): void;
  dispose(): void;
}

interface Drag {
  readonly name: string;
  readonly pointerId: number;
  readonly fromX: number;
  readonly fromY: number;
  readonly from: GridCell;
  hasMoved: boolean;
}

/** A pointer that moves less than this, in CSS pixels, makes a press and no drag. */
const DRAG_THRESHOLD_PX = 4;
/** Key presses that follow one another within this time are one gesture. */
const KEY_SERIES_MS = 600;
const LARGE_STEP_CELLS = 5;

/** Handles the events of the element around the drawing. At most one movement is painted in an animation frame. */
export function makeMover(frame: HTMLElement): Mover {
  const placement = makePlacement(frame);
  let drag: Drag | null = null;
  let pointer = { x: 0, y: 0 };
  let frameRequest = 0;
  let keySeries: { readonly name: string; readonly timer: number } | null = null;
  let clickHandled = false;

  const picture = () => placement.shown()?.picture;
  const endKeySeries = () => {
    if (!keySeries) return;
    const { name, timer } = keySeries;
    clearTimeout(timer);
    keySeries = null;
    placement.drop(name);
  };
  const endDrag = () => {
    const ended = drag;
    cancelAnimationFrame(frameRequest);
    frameRequest = 0;
    drag = null;
    if (ended && frame.hasPointerCapture(ended.pointerId)) frame.releasePointerCapture(ended.pointerId);
  };
  const cancel = () => {
    const name = drag?.hasMoved ? drag.name : keySeries?.name;
    if (keySeries) clearTimeout(keySeries.timer);
    keySeries = null;
    endDrag();
    if (name !== undefined) placement.revert(name);
    return name !== undefined;
  };

  const follow = () => {
    frameRequest = 0;
    const [grid, area, element] = [picture(), placement.area(), placement.elementOf(drag?.name)];
    if (!drag || !grid || !area || !element) return;
    const [x, y] = [pointer.x - drag.fromX, pointer.y - drag.fromY];
    if (!drag.hasMoved && Math.hypot(x, y) < DRAG_THRESHOLD_PX) return;
    if (!drag.hasMoved) placement.begin(drag.name);
    drag.hasMoved = true;
    const by = { column: Math.round(x / area.pxX), row: Math.round(y / area.pxY) };
    placement.moveTo(drag.name, movedBy({ ...element, ...drag.from }, by, grid));
  };
  const onPointerDown = (event: PointerEvent) => {
    if (event.button !== 0 || !event.isPrimary || drag || !picture() || picture()?.preview) return;
    placement.measure();
    const element = placement.under(event.pageX, event.pageY);
    if (!element) return;
    endKeySeries();
    // The focus goes to the element that was hit, which need not be the one on top.
    placement.focus(element.name);
    frame.setPointerCapture(event.pointerId);
    pointer = { x: event.pageX, y: event.pageY };
    drag = {
      name: element.name,
      pointerId: event.pointerId,
      fromX: pointer.x,
      fromY: pointer.y,
      from: placement.placeOf(element),
      hasMoved: false,
    };
  };
  const onPointerMove = (event: PointerEvent) => {
    if (!drag) placement.hover(placement.under(event.pageX, event.pageY)?.name);
    if (event.pointerId !== drag?.pointerId) return;
    pointer = { x: event.pageX, y: event.pageY };
    if (frameRequest === 0) frameRequest = requestAnimationFrame(follow);
  };
  const onPointerUp = (event: PointerEvent) => {
    if (event.pointerId !== drag?.pointerId) return;
    pointer = { x: event.pageX, y: event.pageY };
    follow();
    const { name, hasMoved } = drag;
    endDrag();
    const element = placement.elementOf(name);
    if (hasMoved) placement.drop(name);
    else if (element) placement.shown()?.press(element);
    // The click event that follows immediately is already handled.
    clickHandled = true;
    setTimeout(() => {
      clickHandled = false;
    });
  };
  const onPointerLost = (event: PointerEvent) => {
    if (drag?.pointerId === event.pointerId) cancel();
  };
  // A click without pointer events comes from a screen reader.
  const onClick = (event: MouseEvent) => {
    const element = placement.elementOf(elementNameAt(event));
    if (!clickHandled && element) placement.shown()?.press(element);
  };

  const nudge = (name: string, by: GridCell) => {
    const [grid, element] = [picture(), placement.elementOf(name)];
    if (!grid || !element || drag || grid.preview) return;
    if (keySeries && keySeries.name !== name) endKeySeries();
    clearTimeout(keySeries?.timer);
    keySeries = { name, timer: window.setTimeout(endKeySeries, KEY_SERIES_MS) };
    placement.begin(name);
    placement.moveTo(name, movedBy({ ...element, ...placement.placeOf(element) }, by, grid));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const [grid, element] = [picture(), placement.elementOf(elementNameAt(event))];
    if (!grid || !element || event.altKey || event.ctrlKey || event.metaKey) return;
    const by = cellsForKey(event, grid);
    const press = () => placement.shown()?.press(element);
    const next = nextByLetter(grid.elements, element, event.key);
    if (next) placement.focus(next.name);
    const remove = () => placement.shown()?.remove(element);
    const act = { Enter: press, " ": press, Delete: remove, Backspace: remove }[event.key];
    if (!by && !act) return;
    event.preventDefault();
    if (by) return nudge(element.name, by);
    endKeySeries();
    act?.();
  };
  const onEscape = (event: KeyboardEvent) => {
    if (event.key === "Escape" && cancel()) event.preventDefault();
  };

  const listeners = [
    on(frame, "pointerdown", onPointerDown),
    on(frame, "pointermove", onPointerMove),
    on(frame, "pointerup", onPointerUp),
    on(frame, "pointerenter", placement.measure),
    on(frame, "pointerleave", () => placement.hover(undefined)),
    on(frame, "pointercancel", onPointerLost),
    on(frame, "lostpointercapture", (event) => {
      // Touch captures the pointer for the element under the finger; that capture is lost when the frame takes it.
      if (event.target === frame) onPointerLost(event);
    }),
    on(frame, "mousedown", (event) => {
      // The focus is already set, and a drag must not select text of the page.
      if (drag) event.preventDefault();
    }),
    on(frame, "touchstart", (event) => {
      // A finger on an element drags it, elsewhere it scrolls the page. (touch-action has no effect on SVG shapes.)
      if (drag) event.preventDefault();
    }),
    on(frame, "click", onClick),
    on(frame, "keydown", onKeyDown),
    // The script or another element has the focus now: a movement made with keys is complete.
    on(frame, "focusout", endKeySeries),
    on(window, "keydown", onEscape),
    on(window, "resize", placement.measure),
    // The picture may be wider than the page, and scrolled in it.
    on(window, "scroll", placement.measure, true),
  ];

  return {
    show(next) {
      const isOther = placement.shown()?.subject !== next.subject;
      placement.show(next);
      const name = drag?.name ?? keySeries?.name;
      if (name !== undefined && (isOther || !placement.elementOf(name))) cancel();
    },
    cancel,
    focus: placement.focus,
    nudge,
    dispose() {
      endKeySeries();
      endDrag();
      for (const stop of listeners) stop();
      placement.dispose();
    },
  };
}

/** By how many cells a key moves an element; null for a key that moves none. */
function cellsForKey({ key, shiftKey }: KeyboardEvent, grid: { columns: number; rows: number }): GridCell | null {
  const step = shiftKey ? LARGE_STEP_CELLS : 1;
  const cells: Readonly<Record<string, GridCell>> = {
    ArrowLeft: { column: -step, row: 0 },
    ArrowRight: { column: step, row: 0 },
    ArrowUp: { column: 0, row: -step },
    ArrowDown: { column: 0, row: step },
    Home: { column: -grid.columns, row: 0 },
    End: { column: grid.columns, row: 0 },
    PageUp: { column: 0, row: -grid.rows },
    PageDown: { column: 0, row: grid.rows },
  };
  return cells[key] ?? null;
}

/** The next element after this one whose name begins with the letter of a key. */
function nextByLetter(elements: readonly PanelElement[], from: PanelElement, key: string): PanelElement | undefined {
  if (!/^[a-z]$/i.test(key)) return undefined;
  const index = elements.indexOf(from) + 1;
  return [...elements.slice(index), ...elements.slice(0, index)].find(({ name }) => name.startsWith(key.toLowerCase()));
}

function elementNameAt({ target }: Event): string | undefined {
  return target instanceof Element ? target.closest<SVGElement>("[data-element]")?.dataset.element : undefined;
}

function on<K extends keyof HTMLElementEventMap>(
  target: HTMLElement | Window,
  kind: K,
  act: (event: HTMLElementEventMap[K]) => void,
  capture = false,
): () => void {
  const listener = act as EventListener;
  target.addEventListener(kind, listener, capture);
  return () => target.removeEventListener(kind, listener, capture);
}
