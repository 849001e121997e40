/**
 * From a pulse to a stick and back: `stickOf`, `pulseOf` for a stick with a middle, `shareOf`, `sharePulse`
 * for the throttle. 1000 to 2000 us with the middle at 1500 are common practice, no source.
 */

/** How far a pulse at the end of a stick's or a switch's travel may be off, in us. Common practice, no source. */
export const END_TOLERANCE_US = 10;

/** What the board takes for the ends and the middle of a stick, and how far about the middle is dead. */
export interface Throw {
  readonly fromUs: number;
  readonly centreUs: number;
  readonly toUs: number;
  readonly deadbandUs: number;
}

/**
 * A stick from -1 to 1: a straight line from the middle to each end, and nought within the deadband, at
 * whose edge it therefore jumps. Pulses beyond an end count as that end.
 */
export function stickOf(pulseUs: number, { fromUs, centreUs, toUs, deadbandUs }: Throw): number {
  const away = pulseUs - centreUs;
  if (Math.abs(away) <= deadbandUs) return 0;
  return away > 0 ? Math.min(1, away / (toUs - centreUs)) : Math.max(-1, away / (centreUs - fromUs));
}

/** The pulse of a stick from -1 to 1, whatever the deadband makes of it. */
export function pulseOf(stick: number, { fromUs, centreUs, toUs }: Throw): number {
  return centreUs + stick * (stick > 0 ? toUs - centreUs : centreUs - fromUs);
}

/** A throttle stick from 0 to 1: a straight line between the ends, and no further. */
export function shareOf(pulseUs: number, fromUs: number, toUs: number): number {
  return Math.min(1, Math.max(0, (pulseUs - fromUs) / (toUs - fromUs)));
}

/** The pulse of a throttle stick from 0 to 1. */
export function sharePulse(share: number, fromUs: number, toUs: number): number {
  return fromUs + share * (toUs - fromUs);
}
