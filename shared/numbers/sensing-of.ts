/**
 * The figures of a craft's meters: `voltsMeterOf` and `currentMeterOf` for a section of a pack,
 * `calibrationOf` for the corrections from bench readings. Null if a figure that is needed is neither set
 * nor has a default, or if the board measures in another way.
 */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { Craft } from "../model/craft.ts";
import {
  type Converter,
  correctedShuntMohm,
  correctedTopKohm,
  currentClipA,
  currentStepA,
  type Divider,
  type Shunt,
  shownError,
  voltsClipV,
  voltsStepV,
} from "./sensing.ts";
import { numberIn, onceFor, wordIn } from "./values.ts";

export interface VoltsMeter {
  readonly divider: Divider;
  readonly converter: Converter;
  readonly stepV: number;
  readonly clipV: number;
}

export interface CurrentMeter {
  readonly shunt: Shunt;
  readonly converter: Converter;
  readonly stepA: number;
  readonly clipA: number;
}

export interface Calibration {
  /** The new `divider-top`, and the relative error of the shown volts; null without both readings. */
  readonly volts: { readonly topKohm: number; readonly error: number } | null;
  /** The new `shunt`, and the relative error of the counted charge; null without both readings. */
  readonly current: { readonly shuntMohm: number; readonly error: number } | null;
}

/** The voltage divider of a section of a pack. Null also if the volts come from elsewhere. */
export function voltsMeterOf(craft: Craft, catalogue: Catalogue, section = "pack"): VoltsMeter | null {
  const from = wordIn(craft, catalogue, section, "volts-from");
  const topKohm = numberIn(craft, catalogue, section, "divider-top", "kohm");
  const bottomKohm = numberIn(craft, catalogue, section, "divider-bottom", "kohm");
  const converter = converterOf(craft, catalogue, section);
  if ((from !== null && from !== "divider") || topKohm === null || bottomKohm === null || !converter) return null;
  const divider = { topKohm, bottomKohm };
  return { divider, converter, stepV: voltsStepV(divider, converter), clipV: voltsClipV(divider, converter) };
}

/** The shunt of a section of a pack. Null also if the current comes from elsewhere. An offset that is not set is 0. */
export function currentMeterOf(craft: Craft, catalogue: Catalogue, section = "pack"): CurrentMeter | null {
  const from = wordIn(craft, catalogue, section, "current-from");
  const shuntMohm = numberIn(craft, catalogue, section, "shunt", "mohm");
  const gain = numberIn(craft, catalogue, section, "shunt-gain", "");
  const converter = converterOf(craft, catalogue, section);
  if ((from !== null && from !== "shunt") || shuntMohm === null || gain === null || !converter) return null;
  const shunt = { shuntMohm, gain, offsetMv: numberIn(craft, catalogue, section, "shunt-offset", "mV") ?? 0 };
  return { shunt, converter, stepA: currentStepA(shunt, converter), clipA: currentClipA(shunt, converter) };
}

function converterOf(craft: Craft, catalogue: Catalogue, section: string): Converter | null {
  const bits = numberIn(craft, catalogue, section, "adc-bits", "");
  const referenceV = numberIn(craft, catalogue, section, "adc-reference", "V");
  return bits === null || referenceV === null ? null : { bits, referenceV };
}

/** The corrections of the meters of section `pack` by the readings of section `bench`. */
export const calibrationOf = onceFor((craft, catalogue): Calibration => {
  const bench = (name: string, unit: string) => numberIn(craft, catalogue, "bench", name, unit);
  const meter = voltsMeterOf(craft, catalogue);
  const current = currentMeterOf(craft, catalogue);
  const [readV, shownV] = [bench("pack-volts-read", "V"), bench("pack-volts-shown", "V")];
  const [putBackMah, countedMah] = [bench("charge-put-back", "mAh"), bench("charge-counted", "mAh")];
  const topKohm = meter && readV !== null && shownV !== null ? correctedTopKohm(meter.divider, readV, shownV) : null;
  const shuntMohm =
    current && putBackMah !== null && countedMah !== null
      ? correctedShuntMohm(current.shunt.shuntMohm, putBackMah, countedMah)
      : null;
  return {
    volts: topKohm === null ? null : { topKohm, error: shownError(shownV!, readV!) },
    current: shuntMohm === null ? null : { shuntMohm, error: shownError(countedMah!, putBackMah!) },
  };
});
