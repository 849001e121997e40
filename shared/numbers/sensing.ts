/**
 * How a board measures its pack: a divider for the volts, a shunt for the amperes, a converter for
 * both. Pure arithmetic; `sensing-of.ts` reads a craft's figures.
 *
 * - `dividerScale`, `dividedV`, `voltsStepV`, `voltsClipV`: the volts
 * - `shuntCurrentA`, `currentStepA`, `currentClipA`, `shuntHeatW`: the amperes
 * - `correctedTopKohm`, `correctedShuntMohm`: calibration from two readings
 *
 * Source of the formulas: Ohm's law, and the rule of the unloaded divider that follows from it.
 */

export interface Divider {
  readonly topKohm: number;
  readonly bottomKohm: number;
}

export interface Shunt {
  readonly shuntMohm: number;
  /** How many times the amplifier enlarges the volts across the shunt. */
  readonly gain: number;
  /** What it gives while no current flows. */
  readonly offsetMv: number;
}

export interface Converter {
  readonly bits: number;
  /** Volts on the pin that read as full scale. */
  readonly referenceV: number;
}

/** How many volts of the pack stand behind one volt on the pin: (top + bottom) / bottom. */
export function dividerScale({ topKohm, bottomKohm }: Divider): number {
  return (topKohm + bottomKohm) / bottomKohm;
}

/** Volts on the pin for so many volts of the pack. */
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

/** The current that the board makes of so many volts on the pin, which are I · R, enlarged, over the offset. */
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
 * The upper resistor with which the board would have shown what the meter read. The scale goes as
 * read over shown; the lower resistor stays, for one equation has room for one unknown. Null where
 * no resistor does it: a reading of nought, or a scale that is not above one.
 */
export function correctedTopKohm(divider: Divider, readV: number, shownV: number): number | null {
  if (readV <= 0 || shownV <= 0) return null;
  const topKohm = divider.bottomKohm * ((dividerScale(divider) * readV) / shownV - 1);
  return topKohm > 0 ? topKohm : null;
}

/**
 * The shunt with which the board would have counted what the charger put back. A current is volts
 * over resistance, so the resistance goes as counted over put back. Null for a charge of nought.
 */
export function correctedShuntMohm(shuntMohm: number, putBackMah: number, countedMah: number): number | null {
  return putBackMah > 0 && countedMah > 0 ? (shuntMohm * countedMah) / putBackMah : null;
}

/** By what share a shown figure is too high (0.1) or too low (-0.1). */
export function shownError(shown: number, real: number): number {
  return shown / real - 1;
}

/** Readings nearer than this agree as well as any meter can tell. */
export const AGREED_SHARE = 0.0005;
/** A pair of readings further apart than this is no matter of scale: something else is wrong. */
export const MOST_RATIO = 2;
