/** Consequences for the motors, the frame and the loop: speeds, frequencies, times. */

import { periodUs, pulsePeriodUs } from "../../numbers/loop.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { bladePassHz, cyclesPerTurn, electricalHz, tipSpeedMs, turnHz, unloadedRpm } from "../../numbers/motor.ts";
import { hoverSettingOf, motorNotchesOf, motorsOf, throttleShareOf } from "../../numbers/motor-of.ts";
import { CHEMISTRIES } from "../../numbers/pack.ts";
import { packOf } from "../../numbers/pack-of.ts";
import { stickAtThrottle, throttleAt } from "../../numbers/rates.ts";
import { ratesOf, stickTravelsOf } from "../../numbers/rates-of.ts";
import { throttlePulse } from "../../numbers/sticks.ts";
import { numberIn, numberOf, settingIn } from "../../numbers/values.ts";
import { formatHertz, formatNumber, formatPercent, formatVolts } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  combined,
  consequence,
} from "./provider.ts";

const UNLOADED = "without propellers, which take a good part of it";

/**
 * Unloaded speed in rpm at the full pack and the motors' limit, and the settings it is computed from. No limit counts
 * as 100 %.
 */
function speedAtFullPack({
  craft,
  catalogue,
}: ConsequenceSubject): { rpm: number; packV: number; from: string[] } | null {
  const { cells, chemistry, fullCellV } = packOf(craft, catalogue);
  const kv = numberIn(craft, catalogue, "motors", "kv", "rpm/V");
  const limit = numberIn(craft, catalogue, "motors", "limit", "%");
  const cellV = fullCellV ?? (chemistry && CHEMISTRIES[chemistry].chargeLimitV);
  if (cells === null || kv === null || limit === null || cellV === null) return null;
  const from = ["motors.kv", "pack.cells", fullCellV === null ? "pack.chemistry" : "pack.full-at"];
  if (settingIn(craft, "motors", "limit")) from.push("motors.limit");
  return { rpm: unloadedRpm(kv, (cells * cellV * limit) / 100), packV: cells * cellV, from };
}

const fullSpeed: ConsequenceProvider = (subject) => {
  const found = speedAtFullPack(subject);
  if (!found) return [];
  const { rpm, packV, from } = found;
  return consequence(
    `At the full pack, ${formatVolts(packV)}: ${formatNumber(rpm)} rpm ${UNLOADED}; ${formatNumber(turnHz(rpm))} turns a second`,
    from,
    subject.name === "kv" ? `${formatNumber(rpm)} rpm unloaded` : undefined,
  );
};

const electricalFrequency: ConsequenceProvider = (subject) => {
  const found = speedAtFullPack(subject);
  const poles = numberIn(subject.craft, subject.catalogue, "motors", "poles", "");
  if (!found || poles === null) return [];
  return consequence(`The windings then see ${formatHertz(electricalHz(found.rpm, poles))}, with ${poles} poles`, [
    ...found.from,
    "motors.poles",
  ]);
};

const electricalCycles: ConsequenceProvider = ({ value }) => {
  const poles = numberOf(value, "");
  return poles === null
    ? []
    : consequence(`${formatNumber(cyclesPerTurn(poles))} electrical cycles a turn`, ["motors.poles"]);
};

const idleSpeed: ConsequenceProvider = ({ craft, catalogue }) => {
  const { idleRpm } = motorsOf(craft, catalogue);
  if (idleRpm === null) return [];
  const turn = turnHz(idleRpm);
  const floorHz = motorNotchesOf(craft, catalogue)?.floorHz ?? null;
  const notches =
    floorHz === null
      ? ""
      : `, ${turn < floorHz ? "below" : "above"} the floor of the motor notches, ${formatHertz(floorHz)}`;
  return consequence(
    `At nominal volts about ${formatNumber(idleRpm)} rpm ${UNLOADED}; ${formatNumber(turn)} turns a second${notches}`,
    [
      "motors.idle",
      "motors.kv",
      "pack.cells",
      "pack.chemistry",
      ...(floorHz === null ? [] : ["filters.motor-notches"]),
    ],
  );
};

const idleTurns: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const poles = numberIn(craft, catalogue, "motors", "poles", "");
  const rpm = `${formatNumber(hz * 60)} rpm`;
  return consequence(
    poles === null
      ? rpm
      : `${rpm}; the controllers count ${formatHertz(electricalHz(hz * 60, poles))}, with ${poles} poles`,
    ["motors.idle-speed", ...(poles === null ? [] : ["motors.poles"])],
    rpm,
  );
};

const commandBudget: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { budget, wire } = loopOf(craft, catalogue);
  if (!budget || !wire) return [];
  const { frameUs, answerUs, roundUs, share, spareUs } = budget;
  const spare = spareUs >= 0 ? `${formatNumber(spareUs)} us are left` : `${formatNumber(-spareUs)} us too long`;
  const answered = wire.answers === "same-wire";
  const takes = answered
    ? `One command with its pause takes ${formatNumber(frameUs - answerUs)} us and the answer on the same wire ${formatNumber(answerUs)} us, together ${formatPercent(share)}`
    : `One command with its pause takes ${formatNumber(frameUs)} us, ${formatPercent(share)}`;
  return consequence(
    `${takes} of a round of ${formatNumber(roundUs)} us: ${spare}`,
    ["motors.esc-rate", "motors.esc-pause", ...(answered ? ["motors.rpm-feedback"] : []), "sensors.loop-rate"],
    name === "esc-rate" ? `${formatPercent(share)} of a round` : undefined,
  );
};

const gyroSamples: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { gyro, gyroRateKhz, loopRateKhz } = loopOf(craft, catalogue);
  const sentences: Consequence[] = [];
  if (name === "gyro-rate" && gyroRateKhz !== null)
    sentences.push(...consequence(`A sample every ${formatNumber(periodUs(gyroRateKhz))} us`, ["sensors.gyro-rate"]));
  if (gyro && loopRateKhz !== null)
    sentences.push(
      ...consequence(
        gyro.even
          ? `${formatNumber(gyro.ratio)} ${Math.round(gyro.ratio) === 1 ? "sample" : "samples"} of the gyro to a round`
          : `${formatNumber(gyro.ratio)} samples of the gyro to a round, which is not a whole number`,
        ["sensors.gyro-rate", "sensors.loop-rate"],
      ),
    );
  return sentences;
};

const loopPeriod: ConsequenceProvider = ({ value }) => {
  const khz = numberOf(value, "kHz");
  if (khz === null) return [];
  return consequence(
    `A round every ${formatNumber(periodUs(khz))} us; filters can work below ${formatHertz(khz * 500)}, half the rate`,
    ["sensors.loop-rate"],
    `${formatNumber(periodUs(khz))} us`,
  );
};

const pulsePeriod: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const fits = loopOf(craft, catalogue).pulsesFit;
  const room = fits === null ? "" : fits ? ": the longest pulse has room" : ": the longest pulse has no room";
  return consequence(`A pulse every ${formatNumber(pulsePeriodUs(hz))} us${room}`, [
    "motors.pulse-rate",
    ...(fits === null ? [] : ["motors.pulse-range"]),
  ]);
};

const escRatings: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const amps = numberOf(value, "A");
  const motors = numberIn(craft, catalogue, "frame", "motors", "");
  if (amps === null || motors === null) return [];
  const fullA = numberIn(craft, catalogue, "pack", "full-current", "A");
  const share =
    fullA === null
      ? ""
      : `; the full current of ${formatNumber(fullA)} A is ${formatPercent(fullA / (amps * motors))} of that`;
  return consequence(`Of all ${motors} motors: ${formatNumber(amps * motors)} A${share}`, [
    "motors.esc-rating",
    "frame.motors",
    ...(fullA === null ? [] : ["pack.full-current"]),
  ]);
};

const massEach: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const grams = numberOf(value, "g");
  const motors = numberIn(craft, catalogue, "frame", "motors", "");
  if (grams === null || motors === null) return [];
  return consequence(`In the hover each motor carries ${formatNumber(grams / motors)} g`, [
    "frame.mass",
    "frame.motors",
  ]);
};

const tipSpeed: ConsequenceProvider = (subject) => {
  const found = speedAtFullPack(subject);
  const inches = numberOf(subject.value, "in");
  if (!found || inches === null) return [];
  return consequence(
    `Its tips could go no faster than ${formatNumber(tipSpeedMs(inches, found.rpm))} m/s, at the turns that the motors make unloaded on a full pack`,
    ["frame.propeller-diameter", ...found.from],
  );
};

const bladePass: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const number = numberOf(value, "");
  const { hoverRpm } = motorsOf(craft, catalogue);
  if (number === null || hoverRpm === null) return [];
  return consequence(
    `A blade passes each arm ${formatNumber(bladePassHz(turnHz(hoverRpm), number))} times a second in the hover at most, by the unloaded turns`,
    ["frame.propeller-blades", hoverSettingOf(craft).join("."), "motors.kv", "pack.cells", "pack.chemistry"],
  );
};

/** The position of the throttle stick in the hover, after throttle curve and limit. */
export const hoverStick: ConsequenceProvider = ({ craft, catalogue, section, value }) => {
  const hoverShare = throttleShareOf(craft, catalogue, value);
  const { throttle } = ratesOf(craft, catalogue);
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (hoverShare === null || !throttle || !ends) return [];
  const stick = stickAtThrottle(throttle, hoverShare);
  const from = [`${section}.hover-throttle`, "link.endpoints"];
  for (const name of ["throttle-curve", "throttle-soft", "throttle-limit"])
    if (settingIn(craft, "rates", name)) from.push(`rates.${name}`);
  if (stick === null)
    return consequence(
      `Full stick gives ${formatPercent(throttleAt(throttle, 1))} throttle, less than the hover needs`,
      from,
    );
  return consequence(
    `${formatPercent(hoverShare)} throttle is the stick at ${formatPercent(stick)}, ${Math.round(throttlePulse(stick, ends.fromUs, ends.toUs))} us`,
    from,
  );
};

export const motorProviders: ConsequenceProviders = {
  kv: combined(fullSpeed, electricalFrequency),
  poles: combined(electricalCycles, electricalFrequency),
  idle: idleSpeed,
  "idle-speed": idleTurns,
  limit: fullSpeed,
  "esc-rate": commandBudget,
  "esc-pause": commandBudget,
  "rpm-feedback": commandBudget,
  "pulse-rate": pulsePeriod,
  "esc-rating": escRatings,
};

export const sensorProviders: ConsequenceProviders = {
  "gyro-rate": gyroSamples,
  "loop-rate": combined(loopPeriod, gyroSamples, commandBudget),
};

export const frameProviders: ConsequenceProviders = {
  mass: massEach,
  "propeller-diameter": tipSpeed,
  "propeller-blades": bladePass,
};
