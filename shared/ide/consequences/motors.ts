/** What follows for the motors, the frame and the loop: turns, frequencies, times. */

import { budgetOf, periodUs, pulsePeriodUs } from "../../numbers/loop.ts";
import { loopOf } from "../../numbers/loop-of.ts";
import { bladePassHz, cyclesPerTurn, electricalHz, tipSpeedMs, turnHz, unloadedRpm } from "../../numbers/motor.ts";
import { motorNotchesOf, motorsOf } from "../../numbers/motor-of.ts";
import { CHEMISTRIES } from "../../numbers/pack.ts";
import { packOf } from "../../numbers/pack-of.ts";
import { stickAtThrottle, throttleAt } from "../../numbers/rates.ts";
import { ratesOf, stickTravelsOf } from "../../numbers/rates-of.ts";
import { throttlePulse } from "../../numbers/sticks.ts";
import { numberIn, numberOf, settingIn } from "../../numbers/values.ts";
import { figure, hertz, percent, volts } from "../context/format.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  combined,
  says,
} from "./provider.ts";

const UNLOADED = "without propellers, which take a good part of it";

/** Turns a minute at the full pack and the motors' limit, and what that rests on; a limit not said takes nothing off. */
function full({ craft, catalogue }: ConsequenceSubject): { rpm: number; packV: number; from: string[] } | null {
  const { cells, chemistry, fullCellV } = packOf(craft, catalogue);
  const kv = numberIn(craft, catalogue, "motors", "kv", "rpm/V");
  const limit = numberIn(craft, catalogue, "motors", "limit", "%");
  const cellV = fullCellV ?? (chemistry && CHEMISTRIES[chemistry].chargeLimitV);
  if (cells === null || kv === null || limit === null || cellV === null) return null;
  const from = ["motors.kv", "pack.cells", fullCellV === null ? "pack.chemistry" : "pack.full-at"];
  if (settingIn(craft, "motors", "limit")) from.push("motors.limit");
  return { rpm: unloadedRpm(kv, (cells * cellV * limit) / 100), packV: cells * cellV, from };
}

const turns: ConsequenceProvider = (subject) => {
  const found = full(subject);
  if (!found) return [];
  const { rpm, packV, from } = found;
  return says(
    `At the full pack, ${volts(packV)}: ${figure(rpm)} rpm ${UNLOADED}; ${figure(turnHz(rpm))} turns a second`,
    from,
    subject.name === "kv" ? `${figure(rpm)} rpm unloaded` : undefined,
  );
};

const electrical: ConsequenceProvider = (subject) => {
  const found = full(subject);
  const poles = numberIn(subject.craft, subject.catalogue, "motors", "poles", "");
  if (!found || poles === null) return [];
  return says(`The windings then see ${hertz(electricalHz(found.rpm, poles))}, with ${poles} poles`, [
    ...found.from,
    "motors.poles",
  ]);
};

const cycles: ConsequenceProvider = ({ value }) => {
  const poles = numberOf(value, "");
  return poles === null ? [] : says(`${figure(cyclesPerTurn(poles))} electrical cycles a turn`, ["motors.poles"]);
};

const idle: ConsequenceProvider = ({ craft, catalogue }) => {
  const { idleRpm } = motorsOf(craft, catalogue);
  if (idleRpm === null) return [];
  const turn = turnHz(idleRpm);
  const floorHz = motorNotchesOf(craft, catalogue)?.floorHz ?? null;
  const notches =
    floorHz === null ? "" : `, ${turn < floorHz ? "below" : "above"} the floor of the motor notches, ${hertz(floorHz)}`;
  return says(`At nominal volts about ${figure(idleRpm)} rpm ${UNLOADED}; ${figure(turn)} turns a second${notches}`, [
    "motors.idle",
    "motors.kv",
    "pack.cells",
    "pack.chemistry",
    ...(floorHz === null ? [] : ["filters.motor-notches"]),
  ]);
};

const budget: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { signal, escRateKbit, pauseUs, loopRateKhz } = loopOf(craft, catalogue);
  if (signal !== "digital" || escRateKbit === null || pauseUs === null || loopRateKhz === null) return [];
  const { frameUs, roundUs, share, spareUs } = budgetOf(escRateKbit, pauseUs, loopRateKhz);
  const spare = spareUs >= 0 ? `${figure(spareUs)} us are left` : `${figure(-spareUs)} us too long`;
  return says(
    `One command with its pause takes ${figure(frameUs)} us, ${percent(share)} of a round of ${figure(roundUs)} us: ${spare}`,
    ["motors.esc-rate", "motors.esc-pause", "sensors.loop-rate"],
    name === "esc-rate" ? `${percent(share)} of a round` : undefined,
  );
};

const samples: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const { gyro, gyroRateKhz, loopRateKhz } = loopOf(craft, catalogue);
  const told: Consequence[] = [];
  if (name === "gyro-rate" && gyroRateKhz !== null)
    told.push(...says(`A sample every ${figure(periodUs(gyroRateKhz))} us`, ["sensors.gyro-rate"]));
  if (gyro && loopRateKhz !== null)
    told.push(
      ...says(
        gyro.even
          ? `${figure(gyro.ratio)} ${Math.round(gyro.ratio) === 1 ? "sample" : "samples"} of the gyro to a round`
          : `${figure(gyro.ratio)} samples of the gyro to a round: it does not come out even`,
        ["sensors.gyro-rate", "sensors.loop-rate"],
      ),
    );
  return told;
};

const round: ConsequenceProvider = ({ value }) => {
  const khz = numberOf(value, "kHz");
  if (khz === null) return [];
  return says(
    `A round every ${figure(periodUs(khz))} us; filters can work below ${hertz(khz * 500)}, half the rate`,
    ["sensors.loop-rate"],
    `${figure(periodUs(khz))} us`,
  );
};

const pulses: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const fits = loopOf(craft, catalogue).pulsesFit;
  const room = fits === null ? "" : fits ? ": the longest pulse has room" : ": the longest pulse has no room";
  return says(`A pulse every ${figure(pulsePeriodUs(hz))} us${room}`, [
    "motors.pulse-rate",
    ...(fits === null ? [] : ["motors.pulse-range"]),
  ]);
};

const ratings: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const amps = numberOf(value, "A");
  const motors = numberIn(craft, catalogue, "frame", "motors", "");
  if (amps === null || motors === null) return [];
  const fullA = numberIn(craft, catalogue, "pack", "full-current", "A");
  const share =
    fullA === null ? "" : `; the full current of ${figure(fullA)} A is ${percent(fullA / (amps * motors))} of that`;
  return says(`Of all ${motors} motors: ${figure(amps * motors)} A${share}`, [
    "motors.esc-rating",
    "frame.motors",
    ...(fullA === null ? [] : ["pack.full-current"]),
  ]);
};

const massEach: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const grams = numberOf(value, "g");
  const motors = numberIn(craft, catalogue, "frame", "motors", "");
  if (grams === null || motors === null) return [];
  return says(`In the hover each motor carries ${figure(grams / motors)} g`, ["frame.mass", "frame.motors"]);
};

const tips: ConsequenceProvider = (subject) => {
  const found = full(subject);
  const inches = numberOf(subject.value, "in");
  if (!found || inches === null) return [];
  return says(
    `Its tips could go no faster than ${figure(tipSpeedMs(inches, found.rpm))} m/s, at the turns that the motors make unloaded on a full pack`,
    ["frame.propeller-diameter", ...found.from],
  );
};

const blades: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const number = numberOf(value, "");
  const { hoverRpm } = motorsOf(craft, catalogue);
  if (number === null || hoverRpm === null) return [];
  return says(
    `A blade passes each arm ${figure(bladePassHz(turnHz(hoverRpm), number))} times a second in the hover at most, by the unloaded turns`,
    ["frame.propeller-blades", "frame.hover-throttle", "motors.kv", "pack.cells", "pack.chemistry"],
  );
};

/** Where the throttle stick stands in the hover: what the curve and the limit make of it. */
const hoverStick: ConsequenceProvider = ({ craft, catalogue }) => {
  const { hoverShare } = motorsOf(craft, catalogue);
  const { throttle } = ratesOf(craft, catalogue);
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (hoverShare === null || !throttle || !ends) return [];
  const stick = stickAtThrottle(throttle, hoverShare);
  const from = ["frame.hover-throttle", "link.endpoints"];
  for (const name of ["throttle-curve", "throttle-soft", "throttle-limit"])
    if (settingIn(craft, "rates", name)) from.push(`rates.${name}`);
  if (stick === null)
    return says(`Full stick gives ${percent(throttleAt(throttle, 1))} throttle, less than the hover wants`, from);
  return says(
    `${percent(hoverShare)} throttle is the stick at ${percent(stick)}, ${Math.round(throttlePulse(stick, ends.fromUs, ends.toUs))} us`,
    from,
  );
};

export const motorProviders: ConsequenceProviders = {
  kv: combined(turns, electrical),
  poles: combined(cycles, electrical),
  idle,
  limit: turns,
  "esc-rate": budget,
  "esc-pause": budget,
  "pulse-rate": pulses,
  "esc-rating": ratings,
};

export const sensorProviders: ConsequenceProviders = {
  "gyro-rate": samples,
  "loop-rate": combined(round, samples, budget),
};

export const frameProviders: ConsequenceProviders = {
  mass: massEach,
  "propeller-diameter": tips,
  "propeller-blades": blades,
  "hover-throttle": hoverStick,
};
