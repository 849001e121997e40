/** The gyro, the loop, filters, motor signals and the recorder: what is sampled, and how often. */
import { practice } from "../sources.ts";
import type { Comparison } from "../specs.ts";
import { contradiction } from "./compare.ts";

const nyquist = "sampling theorem: below half of the sampling rate";
const wholePart = "by division: otherwise some rounds have a new measurement and others none";

function sampled(of: string, what: string): Comparison {
  return contradiction(of, "be below", "sensors.gyro-rate", "Hz", {
    times: 0.5,
    reason: `Of what is measured so often, nothing at that frequency is left: ${what}. Look at the units.`,
    source: nyquist,
  });
}

export const loopComparisons: readonly Comparison[] = [
  contradiction("sensors.loop-rate", "be at most", "sensors.gyro-rate", "kHz", {
    reason: "The loop would work on the same measurement twice, which gives noise for nothing. Slow the loop down.",
    source: "by definition: the loop uses what the gyro delivers",
  }),
  contradiction("sensors.loop-rate", "be a whole part of", "sensors.gyro-rate", "kHz", {
    reason:
      "Rounds would take one measurement and then two, and the motors answer unevenly. Take a half, a third or a quarter.",
    source: wholePart,
  }),
  contradiction("recorder.rate", "be at most", "sensors.loop-rate", "Hz", {
    reason:
      "There is nothing new to write between two rounds of the loop. Take the loop's rate, or a half or a quarter of it.",
    source: "by definition: the recorder writes what the loop works out",
  }),
  contradiction("recorder.rate", "be a whole part of", "sensors.loop-rate", "Hz", {
    severity: "warning",
    reason:
      "The record would skip rounds unevenly, and its frequencies come out wrong. Take a half, a quarter or an eighth.",
    source: wholePart,
  }),
  contradiction("motors.pulse-range.to", "be below", "=pulse-period", "us", {
    reason:
      "The next pulse is due before the longest has ended, so full speed is never reached. Send fewer pulses a second, or shorter ones.",
    source: "by definition: a pulse is shorter than its period",
  }),
  sampled("filters.smooth-gyro.cut", "the filter does nothing"),
  sampled("filters.smooth-d.cut", "the filter does nothing"),
  sampled("filters.smooth-yaw", "the filter does nothing"),
  sampled("filters.notch.at", "the notch cuts a frequency that is not there"),
  sampled("filters.tracking-notches.ceiling", "the upper part of the search is empty"),
  sampled("filters.moving-cut.full", "the filter does nothing"),
  sampled("filters.moving-cut-d.full", "the filter does nothing"),
  contradiction("filters.notch.width", "be below", "filters.notch.at", "Hz", {
    times: 1.5,
    reason:
      "A notch as wide as that reaches down to nothing and takes the craft's own movement with it. Take a tenth to a third of its place.",
    source: practice,
  }),
  contradiction("filters.tracking-notches.floor", "be below", "filters.tracking-notches.ceiling", "Hz", {
    reason: "There is no frequency between the two: they may have changed places.",
    source: "by definition of the two",
  }),
  contradiction("filters.moving-cut.idle", "be at most", "filters.moving-cut.full", "Hz", {
    reason:
      "The corner would fall while the motors speed up, against the noise that rises: the two may have changed places.",
    source: "by definition: motor noise rises with the throttle",
  }),
  contradiction("filters.moving-cut-d.idle", "be at most", "filters.moving-cut-d.full", "Hz", {
    reason:
      "The corner would fall while the motors speed up, against the noise that rises: the two may have changed places.",
    source: "by definition: motor noise rises with the throttle",
  }),
  contradiction("filters.motor-notches.floor", "be at most", "=hover-turn-frequency", "Hz", {
    severity: "warning",
    reason:
      "In a hover the motors turn slower than the notches ever go, so that their vibration passes beside them. Lower the floor.",
    source: "kv times nominal volts times throttle: a propeller slows the motor, so this is an upper bound",
  }),
  contradiction("ports.recorder-speed", "be at least", "=record-data", "kbit/s", {
    severity: "warning",
    reason: "Lines of the record are lost on the wire. Record less often, or take a faster line.",
    source: `${practice}: some 30 bytes for each line of a record`,
  }),
  contradiction("filters.smooth-d.cut", "be at most", "filters.smooth-gyro.cut", "Hz", {
    times: 1.5,
    severity: "hint",
    reason:
      "Damping makes every rattle larger, so it is filtered more than the gyro is. The two may have changed places.",
    source: practice,
  }),
];
