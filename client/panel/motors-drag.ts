/** Motors that are dragged with a pointer, or go to the next corner by a key. */
import { useEffect, useRef } from "preact/hooks";
import { cornerAt, type MotorsLayout, nextCorner, otherStorey, type Spot } from "../../shared/draw/motors-layout.ts";
import type { MotorGesture } from "../../shared/protocol/motor-edit.ts";
import type { PlacedMotor } from "../../shared/protocol/motors.ts";

/** A motor in the hand, where it is drawn, and the corner on which it would come to stand. */
export interface Held {
  readonly number: number;
  readonly at: Spot;
  readonly over: string | null;
}

interface Dragging {
  readonly layout: MotorsLayout;
  readonly hold: (held: Held | null) => void;
  readonly choose: (number: number) => void;
  readonly show: (motor: PlacedMotor) => void;
  readonly make: (gesture: MotorGesture) => void;
  /** Nothing can be moved. */
  readonly isOff: boolean;
}

interface Drag {
  readonly number: number;
  readonly pointerId: number;
  readonly from: Spot;
  hasMoved: boolean;
}

/** A pointer that moves less than this, in CSS pixels, makes a press and no drag. */
const THRESHOLD_PX = 4;

const ARROWS = { ArrowUp: "up", ArrowDown: "down", ArrowLeft: "left", ArrowRight: "right" } as const;

/** What a key means on a motor; null for one that leads nowhere here, undefined for one that means nothing. */
export function gestureForKey(layout: MotorsLayout, motor: PlacedMotor, key: string): MotorGesture | null | undefined {
  const { number, direction } = motor;
  if (key === "r" || key === "R")
    return { kind: "turn", motor: number, direction: direction === "clockwise" ? "anticlockwise" : "clockwise" };
  const isPage = key === "PageUp" || key === "PageDown";
  if (!isPage && !(key in ARROWS)) return undefined;
  const corner = isPage
    ? motor.isUnder === (key === "PageUp") && otherStorey(layout, number)
    : nextCorner(layout, number, ARROWS[key as keyof typeof ARROWS]);
  return corner ? { kind: "place", motor: number, place: corner.corner.place } : null;
}

/** Handles the pointer on the frame around the drawing. */
export function useMotorDrag(frame: { readonly current: HTMLDivElement | null }, dragging: Dragging): void {
  // The handlers stay, and see what was rendered last.
  const now = useRef(dragging);
  now.current = dragging;
  useEffect(() => {
    const element = frame.current;
    if (!element) return undefined;
    let drag: Drag | null = null;
    let wasHandled = false;
    const spotOf = (event: PointerEvent): Spot | null => {
      const svg = element.querySelector("svg");
      const matrix = svg?.getScreenCTM();
      if (!matrix) return null;
      const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
      return { x, y };
    };
    const motorOf = (number: number) => now.current.layout.motors.find(({ motor }) => motor.number === number)?.motor;
    const end = () => {
      if (drag && element.hasPointerCapture(drag.pointerId)) element.releasePointerCapture(drag.pointerId);
      drag = null;
      now.current.hold(null);
    };
    const onDown = (event: PointerEvent) => {
      const number = numberAt(event);
      if (number === null || event.button !== 0 || !event.isPrimary || drag) return;
      element.querySelector<SVGElement>(`[data-motor="${number}"]`)?.focus({ preventScroll: true });
      now.current.choose(number);
      element.setPointerCapture(event.pointerId);
      drag = { number, pointerId: event.pointerId, from: { x: event.clientX, y: event.clientY }, hasMoved: false };
    };
    const onMove = (event: PointerEvent) => {
      if (event.pointerId !== drag?.pointerId || now.current.isOff || !motorOf(drag.number)?.isRead) return;
      const far = Math.hypot(event.clientX - drag.from.x, event.clientY - drag.from.y);
      if (!drag.hasMoved && far < THRESHOLD_PX) return;
      drag.hasMoved = true;
      const at = spotOf(event);
      if (at)
        now.current.hold({ number: drag.number, at, over: cornerAt(now.current.layout, at)?.corner.place ?? null });
    };
    const onUp = (event: PointerEvent) => {
      if (event.pointerId !== drag?.pointerId) return;
      const { number, hasMoved } = drag;
      const at = spotOf(event);
      const motor = motorOf(number);
      end();
      wasHandled = true;
      setTimeout(() => {
        wasHandled = false;
      });
      if (!motor) return;
      if (!hasMoved) return now.current.show(motor);
      const place = at && cornerAt(now.current.layout, at)?.corner.place;
      if (place && place !== motor.place) now.current.make({ kind: "place", motor: number, place });
    };
    // A click without a pointer comes from a screen reader.
    const onClick = (event: MouseEvent) => {
      const number = numberAt(event);
      const motor = number === null ? undefined : motorOf(number);
      if (motor && !wasHandled) now.current.show(motor);
    };
    const onLost = (event: PointerEvent) => {
      if (event.target === element && drag?.pointerId === event.pointerId) end();
    };
    // A finger on a motor drags it, elsewhere it scrolls the page; touch-action has no effect on shapes.
    const onTouch = (event: TouchEvent) => {
      if (drag) event.preventDefault();
    };
    // The focus is set already, and a drag must not select text.
    const onMouseDown = (event: MouseEvent) => {
      if (drag) event.preventDefault();
    };
    const onEscape = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || !drag?.hasMoved) return;
      event.preventDefault();
      end();
    };
    element.addEventListener("pointerdown", onDown);
    element.addEventListener("pointermove", onMove);
    element.addEventListener("pointerup", onUp);
    element.addEventListener("pointercancel", onLost);
    element.addEventListener("lostpointercapture", onLost);
    element.addEventListener("click", onClick);
    element.addEventListener("mousedown", onMouseDown);
    element.addEventListener("touchstart", onTouch, { passive: false });
    window.addEventListener("keydown", onEscape);
    return () => {
      element.removeEventListener("pointerdown", onDown);
      element.removeEventListener("pointermove", onMove);
      element.removeEventListener("pointerup", onUp);
      element.removeEventListener("pointercancel", onLost);
      element.removeEventListener("lostpointercapture", onLost);
      element.removeEventListener("click", onClick);
      element.removeEventListener("mousedown", onMouseDown);
      element.removeEventListener("touchstart", onTouch);
      window.removeEventListener("keydown", onEscape);
    };
  }, []);
}

function numberAt({ target }: Event): number | null {
  const group = target instanceof Element ? target.closest<SVGElement>("[data-motor]") : null;
  return group ? Number(group.dataset.motor) : null;
}
