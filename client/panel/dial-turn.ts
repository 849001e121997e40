/** Where a dial goes by keys, by the wheel and by the pointer: gestures as pulses, without the page. */
import { dialRangeUs, inSpan } from "../../shared/draw/words.ts";
import type { PanelControl } from "../../shared/protocol/panel.ts";

/** How far an arrow key or a notch of the wheel turns a dial, as a share of its range (0 to 1), and with Shift in us. */
const STEP = 0.02;
const FINE_STEP_US = 1;
/** How far a page key turns a dial whose whole range does the same. */
const PAGE = 0.1;

/** What is known of a key or of a turn of the wheel. */
export interface Modifiers {
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

/**
 * The pulse in us after a key; null for a key that does not turn a dial. Arrows go by a step, with Shift by one us;
 * page keys into the next range that does something else; Home and End to the lowest and the highest pulse.
 */
export function turnedByKey(
  dial: PanelControl,
  pulseUs: number,
  { key, shiftKey, ctrlKey, altKey, metaKey }: Modifiers & { readonly key: string },
): number | null {
  const range = dialRangeUs(dial);
  if (!range || ctrlKey || altKey || metaKey) return null;
  const steps: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };
  const by = steps[key];
  if (by !== undefined) return turnedBy(dial, pulseUs, by, shiftKey ? "fine" : "usual");
  if (key === "Home") return range.fromUs;
  if (key === "End") return range.toUs;
  if (key === "PageUp") return nextRange(dial, pulseUs, 1);
  return key === "PageDown" ? nextRange(dial, pulseUs, -1) : null;
}

/** The pulse after some steps up, or down where they are negative; at most the dial's stop. */
export function turnedBy(dial: PanelControl, pulseUs: number, steps: number, size: "usual" | "fine"): number {
  const range = dialRangeUs(dial);
  if (!range) return pulseUs;
  const stepUs = size === "fine" ? FINE_STEP_US : Math.max(1, (range.toUs - range.fromUs) * STEP);
  return within(range, pulseUs + steps * stepUs);
}

/** The middle of the next range up or down; the stop where there is none; a tenth further where all is one range. */
function nextRange(dial: PanelControl, pulseUs: number, up: 1 | -1): number {
  const range = dialRangeUs(dial)!;
  if (dial.spans.length < 2) return within(range, pulseUs + up * (range.toUs - range.fromUs) * PAGE);
  const rising = [...dial.spans].sort((a, b) => Math.min(a.fromUs, a.toUs) - Math.min(b.fromUs, b.toUs));
  const next = rising[rising.findIndex((span) => inSpan(pulseUs, span)) + up];
  if (!next) return up === 1 ? range.toUs : range.fromUs;
  return within(range, (next.fromUs + next.toUs) / 2);
}

function within({ fromUs, toUs }: { readonly fromUs: number; readonly toUs: number }, pulseUs: number): number {
  return Math.round(Math.min(toUs, Math.max(fromUs, pulseUs)));
}

/** A notch of a wheel in CSS pixels, about; a line of one that counts lines. */
const NOTCH_PX = 120;
const LINE_PX = 40;
/** Smaller moves, as those of a touch pad, are collected until they are this long. */
const LEAST_PX = 40;

export interface WheelMove extends Modifiers {
  readonly deltaX: number;
  readonly deltaY: number;
  /** 0 where the deltas are pixels, 1 for lines, 2 for pages. */
  readonly deltaMode: number;
}

/**
 * How many steps a turn of the wheel is, and what is left of it for the next one; away from the hand is up. Null
 * where the turn is not the dial's, as with Ctrl, which zooms.
 */
export function wheelSteps(
  { deltaX, deltaY, deltaMode, ctrlKey, altKey, metaKey }: WheelMove,
  leftPx: number,
): { readonly steps: number; readonly leftPx: number } | null {
  if (ctrlKey || altKey || metaKey) return null;
  // With Shift, browsers turn the wheel's way sideways.
  const delta = -(deltaY === 0 ? deltaX : deltaY) * (deltaMode === 0 ? 1 : deltaMode === 1 ? LINE_PX : NOTCH_PX);
  if (Math.abs(delta) >= LEAST_PX)
    return { steps: Math.sign(delta) * Math.max(1, Math.round(Math.abs(delta) / NOTCH_PX)), leftPx: 0 };
  const all = Math.sign(delta) === -Math.sign(leftPx) ? delta : leftPx + delta;
  const steps = Math.trunc(all / LEAST_PX) + 0;
  return { steps, leftPx: all - steps * LEAST_PX };
}

const TURN_DEG = 270;
/** So near the middle of the knob a direction is chance. */
const BLIND_SHARE = 0.2;

/**
 * Where around the knob a pointer is, from 0 at the stop with the lowest pulse to 1 at the other; `x` and `y` from
 * the knob's middle, y down, in its radius. `before` is where the pointer was in the same drag: it does not jump
 * from one stop to the other across the gap between them. Null too near to the middle.
 */
export function knobShare(x: number, y: number, before: number | null): number | null {
  if (Math.hypot(x, y) < BLIND_SHARE) return null;
  const deg = (Math.atan2(x, -y) * 180) / Math.PI;
  const share = Math.min(1, Math.max(0, (deg + TURN_DEG / 2) / TURN_DEG));
  if (before !== null && Math.abs(share - before) > 0.5) return Math.round(before);
  return share;
}

/** The pulse at a share of the dial's range, in us. */
export function pulseAtShare(dial: PanelControl, share: number): number | null {
  const range = dialRangeUs(dial);
  return range && within(range, range.fromUs + share * (range.toUs - range.fromUs));
}
