/** Consequences for the meters of a board, and of readings taken on the bench. */
import { packOf } from "../../numbers/pack-of.ts";
import { stickTravelsOf } from "../../numbers/rates-of.ts";
import { AGREED_SHARE, dividedV, isMeterOff, MOST_RATIO, shuntHeatW } from "../../numbers/sensing.ts";
import { calibrationOf, currentMeterOf, voltsMeterOf } from "../../numbers/sensing-of.ts";
import { numberIn, numberOf, valueIn } from "../../numbers/values.ts";
import { formatNumber, formatPercent, formatVolts } from "../context/format.ts";
import { type Consequence, type ConsequenceProvider, type ConsequenceProviders, consequence } from "./provider.ts";

const voltsMeter: ConsequenceProvider = ({ craft, catalogue, section, name }) => {
  const meter = voltsMeterOf(craft, catalogue, section);
  if (!meter) return [];
  const of = (...names: string[]) => names.map((each) => `${section}.${each}`);
  const { divider, converter, stepV, clipV } = meter;
  const parts = of("divider-top", "divider-bottom", "adc-reference");
  const { fullV } = packOf(craft, catalogue, section);
  return [
    ...consequence(
      `The volts are read up to ${formatVolts(clipV)}, in steps of ${formatNumber(stepV * 1000)} mV`,
      [...parts, ...of("adc-bits")],
      name === "divider-top" ? `reads to ${formatVolts(clipV)}` : undefined,
    ),
    ...(fullV === null
      ? []
      : consequence(
          `The full pack, ${formatVolts(fullV)}, puts ${formatVolts(dividedV(fullV, divider))} on the pin, of ${formatVolts(converter.referenceV)}`,
          [...parts, ...of("full-at", "cells")],
        )),
  ];
};

const currentMeter: ConsequenceProvider = ({ craft, catalogue, section, name }) => {
  const meter = currentMeterOf(craft, catalogue, section);
  if (!meter) return [];
  const of = (...names: string[]) => names.map((each) => `${section}.${each}`);
  const { shunt, stepA, clipA } = meter;
  const fullA = numberIn(craft, catalogue, section, "full-current", "A");
  const sentences: Consequence[] = [];
  if (clipA > 0)
    sentences.push(
      ...consequence(
        `The current is read up to ${formatNumber(clipA)} A, in steps of ${formatNumber(stepA * 1000)} mA`,
        of("shunt", "shunt-gain", "adc-bits", "adc-reference"),
        name === "shunt" ? `reads to ${formatNumber(clipA)} A` : undefined,
      ),
    );
  if (name === "shunt" && fullA !== null)
    sentences.push(
      ...consequence(
        `At the full current of ${formatNumber(fullA)} A it turns ${formatNumber(shuntHeatW(fullA, shunt.shuntMohm))} W into heat`,
        of("shunt", "full-current"),
      ),
    );
  return sentences;
};

/** What two readings of one quantity mean for a meter's scale; `cure` is the setting that corrects it. */
function verdict(what: string, error: number, cure: string): { readonly text: string; readonly brief: string } {
  if (Math.abs(error) < AGREED_SHARE)
    return {
      text: `The craft ${what} right to a thousandth: nothing is to be corrected`,
      brief: "right: nothing to correct",
    };
  const ratio = 1 + error;
  const brief = `${formatPercent(Math.abs(error))} too ${error > 0 ? "high" : "low"}`;
  const off = `The craft ${what} ${brief}`;
  if (ratio > MOST_RATIO || ratio < 1 / MOST_RATIO)
    return { text: `${off}: that is no matter of scale, so look for another fault`, brief };
  return {
    text: `${off}: ${cure} puts it right. Once it is written, these two readings are stale: take them again`,
    brief,
  };
}

/** The line that shows a meter to be far off has the finding `meter-off`, which says so. */
const voltsCalibration: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { volts: found } = calibrationOf(craft, catalogue);
  if (found === null || (name === "pack-volts-shown" && isMeterOff("volts", found.error))) return [];
  const { text, brief } = verdict(
    "shows its volts",
    found.error,
    `a divider-top of ${formatNumber(found.topKohm, 4)} kohm`,
  );
  const from = ["bench.pack-volts-read", "bench.pack-volts-shown", "pack.divider-top", "pack.divider-bottom"];
  return consequence(text, from, name === "pack-volts-shown" ? brief : undefined);
};

const currentCalibration: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { current } = calibrationOf(craft, catalogue);
  if (current === null || (name === "charge-counted" && isMeterOff("charge", current.error))) return [];
  const { text, brief } = verdict(
    "counts its charge",
    current.error,
    `a shunt of ${formatNumber(current.shuntMohm, 4)} mohm`,
  );
  const from = ["bench.charge-put-back", "bench.charge-counted", "pack.shunt"];
  return consequence(text, from, name === "charge-counted" ? brief : undefined);
};

/** A measured stick travel compared with the endpoints that the board takes for full stick. */
const stickTravel: ConsequenceProvider = ({ craft, catalogue, name, value }) => {
  const ends = valueIn(craft, catalogue, "link", "endpoints");
  if (value.kind !== "range" || ends?.kind !== "range") return [];
  const [low, high] = [numberOf(value.from, "us"), numberOf(value.to, "us")];
  const [lowEnd, highEnd] = [numberOf(ends.from, "us"), numberOf(ends.to, "us")];
  if (low === null || high === null || lowEnd === null || highEnd === null) return [];
  const reach = (beyond: number) =>
    beyond === 0 ? "just reached" : `${beyond > 0 ? "passed" : "missed"} by ${formatNumber(Math.abs(beyond))} us`;
  return consequence(
    `The low end, ${lowEnd} us, is ${reach(lowEnd - low)}, the high end, ${highEnd} us, ${reach(high - highEnd)}`,
    [`bench.${name}`, "link.endpoints"],
  );
};

const stickCentres: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const travels = stickTravelsOf(craft, catalogue);
  if (value.kind !== "fields" || !travels) return [];
  return value.fields.flatMap(({ name, value: at }) => {
    const us = numberOf(at, "us");
    if (us === null) return [];
    const { centreUs, deadbandUs } = name === "yaw" ? travels.yaw : travels.rollAndPitch;
    const awayUs = Math.abs(us - centreUs);
    const how =
      awayUs <= deadbandUs
        ? "taken for the middle"
        : `${formatNumber(awayUs)} us from the middle, more than the deadband of ${formatNumber(deadbandUs)} us: the craft turns by itself`;
    const band = name === "yaw" ? "yaw-rest-zone" : "deadband";
    return consequence(`${name} at ${formatNumber(us, 5)} us is ${how}`, [
      `bench.centres:${name}`,
      "link.centre",
      `link.${band}`,
    ]);
  });
};

const restDraw: ConsequenceProvider = ({ value }) => {
  const amps = numberOf(value, "A");
  return amps === null
    ? []
    : consequence(`It takes ${formatNumber((amps * 1000) / 60)} mAh a minute`, ["bench.rest-current"]);
};

export const meterProviders: ConsequenceProviders = {
  "divider-top": voltsMeter,
  "divider-bottom": voltsMeter,
  "adc-bits": (subject) => [...voltsMeter(subject), ...currentMeter(subject)],
  "adc-reference": (subject) => [...voltsMeter(subject), ...currentMeter(subject)],
  shunt: currentMeter,
  "shunt-gain": currentMeter,
  "shunt-offset": currentMeter,
};

export const benchProviders: ConsequenceProviders = {
  "pack-volts-read": voltsCalibration,
  "pack-volts-shown": voltsCalibration,
  "charge-put-back": currentCalibration,
  "charge-counted": currentCalibration,
  roll: stickTravel,
  pitch: stickTravel,
  throttle: stickTravel,
  yaw: stickTravel,
  centres: stickCentres,
  "rest-current": restDraw,
};
