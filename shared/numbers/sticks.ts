/**
 * Sticks and their pulses: the ends and the middle of one (`StickTravel`), and from a pulse to a throttle and back
 * (`throttleShare`, `throttlePulse`). 1000 to 2000 us with the middle at 1500 are common practice, no source.
 */

/** How far a pulse at the end of a stick's or a switch's travel may be off, in us. Common practice, no source. */
export const END_TOLERANCE_US = 10;

/** What the board takes for the ends and the middle of a stick, and how far about the middle is dead. */
export interface StickTravel {
  readonly fromUs: number;
  readonly centreUs: number;
  readonly toUs: number;
  readonly deadbandUs: number;
}

/** A throttle stick from 0 to 1: a straight line between the ends, and no further. */
export function throttleShare(pulseUs: number, fromUs: number, toUs: number): number {
  return Math.min(1, Math.max(0, (pulseUs - fromUs) / (toUs - fromUs)));
}

/** The pulse of a throttle stick from 0 to 1. */
export function throttlePulse(share: number, fromUs: number, toUs: number): number {
  return fromUs + share * (toUs - fromUs);
}
