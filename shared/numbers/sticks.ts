/**
 * Sticks and their pulses: ends and middle (`StickTravel`), and from a pulse to a throttle and back
 * (`throttleShare`, `throttlePulse`). 1000 to 2000 us with the middle at 1500 are common practice, no source.
 */

/** Tolerance in us of a pulse at the end of a stick's or a switch's travel. Common practice, no source. */
export const END_TOLERANCE_US = 10;
/** How far in us a measured end may go beyond the board's. Common practice, no source. */
export const END_BEYOND_US = 25;

/** The pulses that the board takes for the ends and the middle of a stick, and the deadband around the middle. */
export interface StickTravel {
  readonly fromUs: number;
  readonly centreUs: number;
  readonly toUs: number;
  readonly deadbandUs: number;
}

/** The position of the throttle stick, from 0 to 1, for a pulse: linear between the ends, and limited to them. */
export function throttleShare(pulseUs: number, fromUs: number, toUs: number): number {
  return Math.min(1, Math.max(0, (pulseUs - fromUs) / (toUs - fromUs)));
}

/** The pulse in us for a position of the throttle stick from 0 to 1. */
export function throttlePulse(share: number, fromUs: number, toUs: number): number {
  return fromUs + share * (toUs - fromUs);
}
