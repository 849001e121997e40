/** The figures of a craft's control loop: `loopOf`. A figure is null if it is neither set nor has a default. */
import { budgetOf, gyroMultiple, type LoopBudget, type MotorWire, pulsesFit } from "./loop.ts";
import { numberIn, numberOf, onceFor, valueIn, wordIn } from "./values.ts";

export interface LoopFigures {
  readonly signal: "pulse" | "digital" | null;
  readonly gyroRateKhz: number | null;
  readonly loopRateKhz: number | null;
  readonly escRateKbit: number | null;
  readonly pauseUs: number | null;
  /** How the board talks to the motors; for a digital signal only. */
  readonly wire: MotorWire | null;
  /** For a digital signal only. */
  readonly budget: LoopBudget | null;
  readonly gyro: { readonly ratio: number; readonly even: boolean } | null;
  /** For a pulse signal only: whether its longest pulse is shorter than its period. */
  readonly pulsesFit: boolean | null;
}

/** The rates of the loop, and whether motor commands and gyro samples fit them. */
export const loopOf = onceFor((craft, catalogue): LoopFigures => {
  const word = wordIn(craft, catalogue, "motors", "esc-signal");
  const signal = word === "pulse" || word === "digital" ? word : null;
  const gyroRateKhz = numberIn(craft, catalogue, "sensors", "gyro-rate", "kHz");
  const loopRateKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  const escRateKbit = numberIn(craft, catalogue, "motors", "esc-rate", "kbit/s");
  const pauseUs = numberIn(craft, catalogue, "motors", "esc-pause", "us");
  const feedback = valueIn(craft, catalogue, "motors", "rpm-feedback");
  const answers: MotorWire["answers"] = feedback?.kind === "yes-no" && feedback.yes ? "same-wire" : "none";
  const wire =
    signal === "digital" && escRateKbit !== null && pauseUs !== null ? { escRateKbit, pauseUs, answers } : null;
  const pulses = valueIn(craft, catalogue, "motors", "pulse-range");
  const longestUs = pulses?.kind === "range" ? numberOf(pulses.to, "us") : null;
  const pulseRateHz = numberIn(craft, catalogue, "motors", "pulse-rate", "Hz");
  return {
    signal,
    gyroRateKhz,
    loopRateKhz,
    escRateKbit,
    pauseUs,
    wire,
    budget: wire && loopRateKhz !== null ? budgetOf(wire, loopRateKhz) : null,
    gyro: gyroRateKhz !== null && loopRateKhz !== null ? gyroMultiple(gyroRateKhz, loopRateKhz) : null,
    pulsesFit:
      signal === "pulse" && longestUs !== null && pulseRateHz !== null ? pulsesFit(longestUs, pulseRateHz) : null,
  };
});
