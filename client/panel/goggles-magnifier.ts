/** The magnifier over the picture: it follows the pointer or, where that is elsewhere, the element that has the focus. */
import { lensAt } from "../../shared/draw/magnifier.ts";

/** The ids by which the lens shows what is drawn: it is the drawing itself, so it moves with it and stays sharp. */
export const DRAWING_ID = "goggles-drawing";
export const OVERLAY_ID = "goggles-overlay";

/** Follows in the frame until it is disposed of; the lens and its parts are those that the view has rendered there. */
export function makeMagnifier(frame: HTMLElement, columns: number): { dispose(): void } {
  const lens = frame.querySelector<HTMLElement>("[data-part=lens]");
  const view = lens?.querySelector("svg");
  let pointer: { readonly x: number; readonly y: number } | null = null;
  let request = 0;

  const paint = () => {
    request = 0;
    const drawing = frame.querySelector<SVGSVGElement>(`#${DRAWING_ID}`);
    if (!lens || !view || !drawing) return;
    const outer = frame.getBoundingClientRect();
    const shown = drawing.getBoundingClientRect();
    const point = pointer ? { x: pointer.x - outer.left, y: pointer.y - outer.top } : focusedPoint(frame, outer);
    lens.hidden = point === null || shown.width === 0;
    if (lens.hidden || !point) return;
    const { x, y, width, height } = drawing.viewBox.baseVal;
    const { box, shows } = lensAt({
      frame: { widthPx: outer.width, heightPx: outer.height },
      picture: { x: shown.left - outer.left, y: shown.top - outer.top, width: shown.width, height: shown.height },
      drawing: { x, y, width, height },
      columns,
      point,
      keeps: pointer ? "point" : "middle",
    });
    Object.assign(lens.style, {
      transform: `translate(${box.x}px, ${box.y}px)`,
      width: `${box.width}px`,
      height: `${box.height}px`,
    });
    view.setAttribute("viewBox", [shows.x, shows.y, shows.width, shows.height].join(" "));
    for (const copy of view.querySelectorAll("use")) {
      for (const [name, value] of Object.entries({ x, y, width, height })) copy.setAttribute(name, String(value));
    }
  };
  const soon = () => {
    if (request === 0) request = requestAnimationFrame(paint);
  };
  const onMove = ({ clientX, clientY }: PointerEvent) => {
    pointer = { x: clientX, y: clientY };
    soon();
  };
  const onLeave = () => {
    pointer = null;
    soon();
  };
  // A key says that the keyboard leads from here on, also where the pointer still lies over the picture.
  const onKey = () => {
    pointer = null;
    // After the mover has moved the element.
    setTimeout(soon);
  };
  const listeners: [keyof HTMLElementEventMap, (event: never) => void][] = [
    ["pointermove", onMove],
    ["pointerdown", onMove],
    ["pointerleave", onLeave],
    ["focusin", soon],
    ["focusout", soon],
    ["keydown", onKey],
  ];
  for (const [kind, act] of listeners) frame.addEventListener(kind, act as EventListener);
  window.addEventListener("scroll", soon, true);
  window.addEventListener("resize", soon);
  soon();
  return {
    dispose() {
      cancelAnimationFrame(request);
      for (const [kind, act] of listeners) frame.removeEventListener(kind, act as EventListener);
      window.removeEventListener("scroll", soon, true);
      window.removeEventListener("resize", soon);
      if (lens) lens.hidden = true;
    },
  };
}

/** The middle of the focused element, from the frame's corner; null where none in the frame has the focus. */
function focusedPoint(frame: HTMLElement, outer: DOMRect): { readonly x: number; readonly y: number } | null {
  const focused = document.activeElement?.closest("[data-element]");
  if (!focused || !frame.contains(focused)) return null;
  const plate = (focused.querySelector(".plate") ?? focused).getBoundingClientRect();
  return { x: plate.left + plate.width / 2 - outer.left, y: plate.top + plate.height / 2 - outer.top };
}
