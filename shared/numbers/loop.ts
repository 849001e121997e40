/**
 * Timing of the control loop: its period, the time that a motor command takes of it, and how the gyro's
 * sample rate fits. A round is one period of the loop. Pure arithmetic; `loop-of.ts` reads a craft's figures.
 *
 * - `periodUs`, `frameUs`, `answerUs`, `budgetOf`: the round, the command with its answer, and what is left
 * - `fastestLoopKhz`, `slowestEscKbit`: the limits at which commands still fit
 * - `gyroMultiple`: gyro samples per round
 * - `pulsePeriodUs`, `pulsesFit`: speed controllers driven by pulses
 */

/** Bits of one digital command, checksum included. Common practice, no source. */
const COMMAND_BITS = 16;
/** Bits of a controller's answer, and the microseconds in which the wire is turned round for it. Common practice, no source. */
const ANSWER_BITS = 20;
const TURN_ROUND_US = 25;

/** Period in microseconds: 1 / f. */
export function periodUs(rateKhz: number): number {
  return 1000 / rateKhz;
}

/** How the board talks to one motor controller. */
export interface MotorWire {
  readonly escRateKbit: number;
  /** The silence between two commands, in microseconds. */
  readonly pauseUs: number;
  /** Whether the controller answers each command on the same wire, with the turns of its motor. */
  readonly answers: "none" | "same-wire";
}

/** Microseconds of one digital command, of its answer if there is one, and of the pause: bits / rate each. */
export function frameUs(wire: MotorWire): number {
  return bitsUs(COMMAND_BITS, wire.escRateKbit) + answerUs(wire) + wire.pauseUs;
}

/** Microseconds from the end of a command to the end of its answer; 0 if there is none. */
export function answerUs({ escRateKbit, answers }: MotorWire): number {
  return answers === "none" ? 0 : TURN_ROUND_US + bitsUs(ANSWER_BITS, escRateKbit);
}

function bitsUs(bits: number, rateKbit: number): number {
  return (bits * 1000) / rateKbit;
}

export interface LoopBudget {
  readonly frameUs: number;
  /** The answer's part of it. */
  readonly answerUs: number;
  readonly roundUs: number;
  /** The rest of a round after the command; negative if commands do not fit. */
  readonly spareUs: number;
  /** The command's part of a round, from 0; 1 is all of it. */
  readonly share: number;
  readonly fits: boolean;
}

/** How one command, with its answer, fits into one round. A rounding error does not make it too long. */
export function budgetOf(wire: MotorWire, loopRateKhz: number): LoopBudget {
  const frame = frameUs(wire);
  const round = periodUs(loopRateKhz);
  const share = frame / round;
  const fits = share <= 1 + 1e-9;
  return { frameUs: frame, answerUs: answerUs(wire), roundUs: round, spareUs: round - frame, share, fits };
}

/** The fastest loop in kHz whose round fits one command and its answer. */
export function fastestLoopKhz(wire: MotorWire): number {
  return 1000 / frameUs(wire);
}

/** The slowest bit rate in kbit/s that fits a loop; null if what is not sent by bits fills the round. */
export function slowestEscKbit(
  loopRateKhz: number,
  { pauseUs, answers }: Omit<MotorWire, "escRateKbit">,
): number | null {
  const answered = answers === "same-wire";
  const leftUs = periodUs(loopRateKhz) - pauseUs - (answered ? TURN_ROUND_US : 0);
  return leftUs > 0 ? ((COMMAND_BITS + (answered ? ANSWER_BITS : 0)) * 1000) / leftUs : null;
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
