/**
 * Timing of the control loop: its period, the time that a motor command takes of it, and how the gyro's
 * sample rate fits. A round is one period of the loop. Pure arithmetic; `loop-of.ts` reads a craft's figures.
 *
 * - `periodUs`, `frameUs`, `budgetOf`: the round, the command, and what is left
 * - `fastestLoopKhz`, `slowestEscKbit`: the limits at which commands still fit
 * - `gyroMultiple`: gyro samples per round
 * - `pulsePeriodUs`, `pulsesFit`: speed controllers driven by pulses
 */

/** Bits of one digital command, checksum included. Common practice, no source. */
const COMMAND_BITS = 16;

/** Period in microseconds: 1 / f. */
export function periodUs(rateKhz: number): number {
  return 1000 / rateKhz;
}

/** Microseconds of one digital command and the pause after it: bits / rate + pause. */
export function frameUs(escRateKbit: number, pauseUs: number): number {
  return (COMMAND_BITS * 1000) / escRateKbit + pauseUs;
}

export interface LoopBudget {
  readonly frameUs: number;
  readonly roundUs: number;
  /** The rest of a round after the command; negative if commands do not fit. */
  readonly spareUs: number;
  /** The command's part of a round, from 0; 1 is all of it. */
  readonly share: number;
  readonly fits: boolean;
}

/** How one command fits into one round. A rounding error does not make it too long. */
export function budgetOf(escRateKbit: number, pauseUs: number, loopRateKhz: number): LoopBudget {
  const frame = frameUs(escRateKbit, pauseUs);
  const round = periodUs(loopRateKhz);
  const share = frame / round;
  return { frameUs: frame, roundUs: round, spareUs: round - frame, share, fits: share <= 1 + 1e-9 };
}

/** The fastest loop in kHz whose round fits one command. */
export function fastestLoopKhz(escRateKbit: number, pauseUs: number): number {
  return 1000 / frameUs(escRateKbit, pauseUs);
}

/** The slowest bit rate in kbit/s that fits a loop; null if the pause alone fills the round. */
export function slowestEscKbit(loopRateKhz: number, pauseUs: number): number | null {
  const leftUs = periodUs(loopRateKhz) - pauseUs;
  return leftUs > 0 ? (COMMAND_BITS * 1000) / leftUs : null;
}

/** Gyro samples per round, and whether that is a whole number: then every round has new samples. */
export function gyroMultiple(
  gyroRateKhz: number,
  loopRateKhz: number,
): { readonly ratio: number; readonly even: boolean } {
  const ratio = gyroRateKhz / loopRateKhz;
  return { ratio, even: Math.abs(ratio - Math.round(ratio)) < 1e-6 };
}

/** Microseconds from the start of a pulse to the start of the next: 1 / f. */
export function pulsePeriodUs(pulseRateHz: number): number {
  return 1e6 / pulseRateHz;
}

/** Whether the longest pulse ends before the next one starts. */
export function pulsesFit(longestUs: number, pulseRateHz: number): boolean {
  return longestUs < pulsePeriodUs(pulseRateHz);
}
