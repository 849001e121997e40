/**
 * How a board measures its pack: a voltage divider for the volts, a shunt for the current, and an
 * analogue-to-digital converter for both. Pure arithmetic; `sensing-of.ts` reads a craft's figures.
 *
 * - `dividerScale`, `dividedV`, `voltsStepV`, `voltsClipV`: the volts
 * - `shuntCurrentA`, `currentStepA`, `currentClipA`, `shuntHeatW`: the current
 * - `correctedTopKohm`, `correctedShuntMohm`: calibration from two readings
 *
 * Source of the formulas: Ohm's law, and the formula of the unloaded divider that follows from it.
 */

export interface Divider {
  readonly topKohm: number;
  readonly bottomKohm: number;
}

export interface Shunt {
  readonly shuntMohm: number;
  /** Gain of the amplifier of the voltage across the shunt. */
  readonly gain: number;
  /** Output of the amplifier without current. */
  readonly offsetMv: number;
}

export interface Converter {
  readonly bits: number;
  /** Volts on the pin that read as full scale. */
  readonly referenceV: number;
}

/** Volts of the pack per volt on the pin: (top + bottom) / bottom. */
export function dividerScale({ topKohm, bottomKohm }: Divider): number {
  return (topKohm + bottomKohm) / bottomKohm;
}

/** Volts on the pin for a voltage of the pack. */
export function dividedV(packVolts: number, divider: Divider): number {
  return packVolts / dividerScale(divider);
}

/** One step of the converter, in volts on its pin: the reference over 2^bits. */
export function pinStepV({ bits, referenceV }: Converter): number {
  return referenceV / 2 ** bits;
}

/** One step of the converter, in volts of the pack. */
export function voltsStepV(divider: Divider, converter: Converter): number {
  return pinStepV(converter) * dividerScale(divider);
}

/** Volts of the pack at which the reading stops rising. */
export function voltsClipV(divider: Divider, converter: Converter): number {
  return converter.referenceV * dividerScale(divider);
}

/** The current in A that the board computes from the volts on the pin: (pin − offset) / (R · gain). */
export function shuntCurrentA(pinV: number, { shuntMohm, gain, offsetMv }: Shunt): number {
  return (pinV * 1000 - offsetMv) / (shuntMohm * gain);
}

/** One step of the converter, in amperes. */
export function currentStepA({ shuntMohm, gain }: Shunt, converter: Converter): number {
  return (pinStepV(converter) * 1000) / (shuntMohm * gain);
}

/** Current at which the reading stops rising. */
export function currentClipA(shunt: Shunt, converter: Converter): number {
  return shuntCurrentA(converter.referenceV, shunt);
}

/** Heat in the shunt: P = I² · R. */
export function shuntHeatW(currentA: number, shuntMohm: number): number {
  return (currentA ** 2 * shuntMohm) / 1000;
}

/**
 * The upper resistor with which the board would have shown what the meter read: the scale changes by read
 * over shown, and the lower resistor stays, as one equation determines one unknown. Null if there is no
 * such resistor: a reading of zero or less, or a scale of one or less.
 */
export function correctedTopKohm(divider: Divider, readV: number, shownV: number): number | null {
  if (readV <= 0 || shownV <= 0) return null;
  const topKohm = divider.bottomKohm * ((dividerScale(divider) * readV) / shownV - 1);
  return topKohm > 0 ? topKohm : null;
}

/**
 * The shunt with which the board would have counted what the charger put back. A current is volts
 * over resistance, so the resistance changes by counted over put back. Null for a charge of zero or less.
 */
export function correctedShuntMohm(shuntMohm: number, putBackMah: number, countedMah: number): number | null {
  return putBackMah > 0 && countedMah > 0 ? (shuntMohm * countedMah) / putBackMah : null;
}

/** The relative error of a shown figure: 0.1 is 10 % too high, -0.1 is 10 % too low. */
export function shownError(shown: number, real: number): number {
  return shown / real - 1;
}

/** Readings with a smaller relative error than this agree within the accuracy of any meter. */
export const AGREED_SHARE = 0.0005;
/** Readings with a greater relative error than these are a fault. The project's own figures: charge is measured less well. */
export const OFF_SHARE = { volts: 0.03, charge: 0.15 } as const;

/** Whether a relative error is more than parts that are a little off make of it. */
export function isMeterOff(of: keyof typeof OFF_SHARE, error: number): boolean {
  // Rounding must not make one that lies just at the bound a fault.
  return Math.abs(error) > OFF_SHARE[of] + 1e-9;
}

/** Two readings with a greater ratio than this cannot be corrected by the scale: something else is wrong. */
export const MOST_RATIO = 2;
