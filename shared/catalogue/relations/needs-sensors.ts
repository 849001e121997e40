/** What needs a sensor: to feel down, height, place, heading, current, or turns. */
import { practice } from "../sources.ts";
import type { Having, Need, NeedTable } from "../specs.ts";

const accelerometer: Having = { setting: "sensors.accelerometer", is: "yes" };
const barometer: Having = { setting: "sensors.barometer", is: "yes" };
const compass: Having = { setting: "sensors.compass", is: "yes" };
const volts: Having = { setting: "pack.volts-from", not: "none" };
const current: Having = { setting: "pack.current-from", not: "none" };
const satellites: Having = { port: "gps" };
const reports: Having = { port: "esc-data" };
const source = "by definition: what is shown or acted on has to be measured";

function need(having: Having, reason: string, more: Partial<Need> = {}): Need {
  return { ...having, misleads: true, reason, source, ...more };
}

const noVolts = "Without the pack's volts there is nothing to judge by.";
const noPackEnd = "The craft would never learn that its pack is empty.";
const noCharge = "Without a current sensor no charge is counted, so this alert never comes.";

export const sensorNeeds: NeedTable = {
  "osd.alert-on": [
    need(current, noCharge, { word: "used-up" }),
    need(volts, "Without the pack's volts this alert never comes.", { word: "low-pack" }),
    need(barometer, "Without air pressure or satellites this alert never comes.", { word: "high", or: [satellites] }),
    need({ setting: "recorder.to", not: "off" }, "A recorder that is off is never full.", { word: "recorder-full" }),
  ],
  "pack.warn-at": [need(volts, noVolts)],
  "pack.land-at": [need(volts, noVolts)],
  "pack.warn-after": [need(current, "Without a current sensor no charge is counted, so this warning never comes.")],
  "pack.volts-smoothing": [need(volts, noVolts)],
  "pack.current-smoothing": [need(current, "There is no current to smooth.")],
  "bench.charge-counted": [need(current, "Without a current sensor the craft counts no charge.")],
  "bench.pack-volts-shown": [need(volts, "Without a sensor the craft shows no volts.")],
  "failsafe.pack-empty-then": [
    need(volts, noPackEnd, { word: "warn" }),
    need(volts, noPackEnd, { word: "descend" }),
    need(volts, noPackEnd, { word: "return" }),
  ],
  "safety.arm-needs-cell-volts": [
    need(volts, "Without the pack's volts the craft never finds enough, and never arms."),
  ],
  "safety.arm-tilt-limit": [
    need(accelerometer, "Without an accelerometer the board feels no tilt, so the limit does not protect."),
  ],
  "failsafe.hold-with": [
    need(accelerometer, "A craft that cannot tell down cannot level itself while it waits.", { word: "level" }),
  ],
  "failsafe.then": [
    need(accelerometer, "The way home is flown by angles, which an accelerometer measures.", { word: "return" }),
  ],
  "navigation.steepest-tilt": [need(accelerometer, "A lean can only be limited where it is measured.")],
  "sensors.accelerometer-cut": [need(accelerometer, "There is nothing to filter.")],
  "sensors.level-trim-roll": [need(accelerometer, "There is no level to trim.")],
  "sensors.level-trim-pitch": [need(accelerometer, "There is no level to trim.")],
  "osd.height-alert": [
    need(barometer, "Height comes from air pressure or from satellites.", {
      or: [satellites],
      while: [{ setting: "osd.alert-on", has: "high" }],
    }),
  ],
  "navigation.landing-height": [
    need(barometer, "The last metres are told by air pressure, by a range finder or by satellites.", {
      or: [{ setting: "sensors.range-finder", is: "yes" }, satellites],
    }),
  ],
  "recorder.holds": [
    need({ setting: "motors.rpm-feedback", is: "yes" }, "The turns have to be reported before they can be written.", {
      word: "rpm",
      or: [reports],
    }),
    need(accelerometer, "There is no acceleration to write.", { word: "accelerometer" }),
    need(volts, "There are no volts to write.", { word: "pack" }),
    need(barometer, "There is no height to write.", { word: "height", or: [satellites] }),
    need(compass, "There is no heading to write.", { word: "compass" }),
  ],
  "finder.sounds": [
    need(volts, "Without the pack's volts this sound never comes.", { word: "pack-low" }),
    need(volts, "Without the pack's volts this sound never comes.", { word: "pack-empty" }),
  ],
  "gains.sag-makeup": [need(volts, "It is worked out from the pack's volts.")],
  "filters.motor-notches": [
    need(
      reports,
      "Notches follow the motors by reported turns: a digital signal alone reports none. Set rpm-feedback, say the port of the controllers' reports, or use tracking-notches.",
      {
        or: [{ setting: "motors.rpm-feedback", is: "yes", unsaid: "missing" }],
      },
    ),
  ],
  "pack-volts": [need(volts, "There are no volts to show.")],
  "cell-volts": [need(volts, "There are no volts to show.")],
  "pack-bar": [need(volts, "Without volts the bar never empties.", { or: [current] })],
  heading: [
    need(compass, "Where the nose points is told by a compass, or by satellites once the craft moves.", {
      or: [satellites],
    }),
  ],
  "heading-tape": [
    need(compass, "Where the nose points is told by a compass, or by satellites once the craft moves.", {
      or: [satellites],
    }),
  ],
  "hold-place": [
    {
      ...compass,
      severity: "warning",
      or: [{ setting: "sensors.flow", is: "yes", unsaid: "missing" }],
      reason:
        "To lean the right way it has to know where its nose points, and only a compass tells that while it stands still.",
      source: practice,
    },
  ],
};
