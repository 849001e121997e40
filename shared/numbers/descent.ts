/**
 * Hovering and coming down. Pure arithmetic.
 *
 * - `hoverWith`: the throttle of the hover with another pack
 * - `BLIND_SINK_MS`, `descentS`: how long a blind descent takes
 */

/**
 * The throttle of the hover, in the unit of `hover`, with another pack: `massRatio` and `voltsRatio` are those of
 * the craft with the other pack to the usual one. Thrust grows with the square of a propeller's speed (momentum
 * theory), and a motor's speed with throttle times volts (kv). An approximation: how a board and its
 * controllers bend the throttle is left out.
 */
export function hoverWith(hover: number, massRatio: number, voltsRatio: number): number {
  return (hover * Math.sqrt(massRatio)) / voltsRatio;
}

/**
 * The fastest in m/s that a craft should sink with nobody flying it: faster it drops into its own wash, and
 * breaks where it lands. The project's own figure; two metres a second are common practice, no source.
 */
export const BLIND_SINK_MS = 3;

/** Seconds to come down from a height at a steady rate. */
export function descentS(heightM: number, sinkMs: number): number {
  return heightM / sinkMs;
}
