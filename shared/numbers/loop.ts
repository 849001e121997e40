/**
 * The control loop's time: what a round has, what the command to the motors takes of it, and how the
 * gyro's beat fits. Pure arithmetic; `loop-of.ts` reads a craft's figures.
 *
 * - `periodUs`, `frameUs`, `budgetOf`: the round, the command, and what is left
 * - `fastestLoopKhz`, `slowestEscKbit`: what would fit
 * - `gyroMultiple`: rounds and samples
 * - `pulsePeriodUs`, `pulsesFit`: controllers that are driven by pulses
 */

/** Bits of one digital command, checksum included. Common practice, no source. */
const COMMAND_BITS = 16;

/** Microseconds of one round: 1 / f. */
export function periodUs(rateKhz: number): number {
  return 1000 / rateKhz;
}

/** Microseconds of one digital command and the silence after it: bits / rate + pause. */
export function frameUs(escRateKbit: number, pauseUs: number): number {
  return (COMMAND_BITS * 1000) / escRateKbit + pauseUs;
}

export interface Budget {
  readonly frameUs: number;
  readonly roundUs: number;
  /** What is left of a round; below nought the commands do not fit. */
  readonly spareUs: number;
  /** Share of the round that the command takes: 1 is all of it. */
  readonly share: number;
  readonly fits: boolean;
}

/** Whether one command fits into one round. A hair of rounding does not make it too long. */
export function budgetOf(escRateKbit: number, pauseUs: number, loopRateKhz: number): Budget {
  const frame = frameUs(escRateKbit, pauseUs);
  const round = periodUs(loopRateKhz);
  const share = frame / round;
  return { frameUs: frame, roundUs: round, spareUs: round - frame, share, fits: share <= 1 + 1e-9 };
}

/** The fastest loop that such commands keep up with. */
export function fastestLoopKhz(escRateKbit: number, pauseUs: number): number {
  return 1000 / frameUs(escRateKbit, pauseUs);
}

/** The slowest bit rate that fits a loop; null where the pause alone fills the round. */
export function slowestEscKbit(loopRateKhz: number, pauseUs: number): number | null {
  const leftUs = periodUs(loopRateKhz) - pauseUs;
  return leftUs > 0 ? (COMMAND_BITS * 1000) / leftUs : null;
}

/** Samples of the gyro to a round, and whether they come out even: then every round works on fresh ones. */
export function gyroMultiple(
  gyroRateKhz: number,
  loopRateKhz: number,
): { readonly ratio: number; readonly even: boolean } {
  const ratio = gyroRateKhz / loopRateKhz;
  return { ratio, even: Math.abs(ratio - Math.round(ratio)) < 1e-6 };
}

/** Microseconds between two pulses: 1 / f. */
export function pulsePeriodUs(pulseRateHz: number): number {
  return 1e6 / pulseRateHz;
}

/** Whether the longest pulse ends before the next one begins. */
export function pulsesFit(longestUs: number, pulseRateHz: number): boolean {
  return longestUs < pulsePeriodUs(pulseRateHz);
}
