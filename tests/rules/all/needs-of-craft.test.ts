/** What craft of less common kinds need of their other settings: by flow, with three motors, with a throttle in its middle. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { understood, WHEEL, workspaceOf } from "../check.ts";

/** The codes of what is found in a craft of these lines, about what it needs. */
function needsFoundIn(...lines: string[]): string[] {
  const text = ['craft "Jug"', 'use "wheel.fettle"', ...lines, ""].join("\n");
  const findings = understood(findingsOf(workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": text }), "jug.fettle"));
  return findings
    .map(({ code }) => code)
    .filter((code) => /^(setting-needs|mode-needs|port-missing|mode-overlap)$/.test(code));
}

const HOLD = ["modes", "  arm when TL is down", "  hold-place when TR is down", "sensors", "  accelerometer yes"];

test("a place can be held by satellites or by a camera that watches the ground, and by nothing else", () => {
  const flow = ["  flow yes", "  range-finder yes"];
  expect(needsFoundIn(...HOLD, ...flow, "ports", "  port1 receiver")).toEqual([]);
  expect(needsFoundIn(...HOLD, ...flow, "ports", "  port1 receiver", "navigation", "  hold-speed 2 m/s")).toEqual([]);
  expect(needsFoundIn(...HOLD, "  compass yes", "ports", "  port1 gps")).toEqual([]);
  expect(needsFoundIn(...HOLD, "  compass yes", "ports", "  port1 receiver")).toEqual(["mode-needs"]);
  expect(needsFoundIn(...HOLD, "  flow no", "  compass yes", "ports", "  port1 receiver")).toEqual(["mode-needs"]);
});

test("the yaw servo belongs to three motors", () => {
  const servo = ["motors", "  yaw-servo-output 5"];
  expect(needsFoundIn("frame", "  arm-layout tri", ...servo)).toEqual([]);
  expect(needsFoundIn("frame", "  arm-layout true-x", ...servo)).toEqual(["setting-needs"]);
  expect(needsFoundIn("frame", "  arm-layout stacked-tri", ...servo)).toEqual(["setting-needs"]);
});

test("an idle is held by speed only where the motors report theirs", () => {
  expect(
    needsFoundIn("motors", "  poles 14", "  esc-signal digital", "  rpm-feedback yes", "  idle-speed 50 Hz"),
  ).toEqual([]);
  expect(needsFoundIn("motors", "  poles 14", "  rpm-feedback no", "  idle-speed 50 Hz")).toEqual(["setting-needs"]);
  expect(needsFoundIn("motors", "  poles 14", "  rpm-feedback no", "  idle-speed off")).toEqual([]);
});

test("arming in the middle of the throttle wants motors that stand there, or a height that is held", () => {
  const middle = ["safety", "  arm-throttle middle", "motors"];
  expect(needsFoundIn(...middle, "  reversible yes")).toEqual([]);
  expect(needsFoundIn(...middle, "  reversible no")).toEqual(["setting-needs"]);
  const held = ["modes", "  arm when TL is down", "  hold-height when TR is down", "sensors", "  barometer yes"];
  expect(needsFoundIn(...middle, "  reversible no", ...held)).toEqual([]);
  expect(needsFoundIn("safety", "  arm-throttle low", "motors", "  reversible no")).toEqual([]);
});

test("aerials must not turn against each other", () => {
  const aerials = (craft: string, viewer: string) =>
    needsFoundIn("video", `  polarisation ${craft}`, `  viewer-polarisation ${viewer}`);
  expect(aerials("left", "left")).toEqual([]);
  expect(aerials("left", "linear")).toEqual([]);
  expect(aerials("left", "right")).toEqual(["setting-needs"]);
  expect(aerials("right", "left")).toEqual(["setting-needs"]);
  expect(needsFoundIn("video", "  polarisation left")).toEqual([]);
});

test("a transmitter that is silent until arming has to obey the board", () => {
  expect(needsFoundIn("video", "  power-disarmed off", "  set-by board", "ports", "  port1 video")).toEqual([]);
  expect(needsFoundIn("video", "  power-disarmed off", "  set-by hand")).toEqual(["setting-needs"]);
  expect(needsFoundIn("video", "  power off")).toEqual([]);
});

test("a lean that is limited, an identity that is broadcast and a loss that is tried say what they rest on", () => {
  const lean = ["modes", "  arm when TL is down", "  lean-limit when TR is down", "sensors", "  accelerometer yes"];
  expect(needsFoundIn(...lean)).toEqual(["mode-needs"]);
  expect(needsFoundIn(...lean, "rates", "  lean-limit 50 deg")).toEqual([]);
  expect(needsFoundIn("frame", "  identification board", "ports", "  port1 gps", "  port2 identification")).toEqual([]);
  expect(needsFoundIn("frame", "  identification board", "ports", "  port1 gps")).toEqual(["port-missing"]);
  expect(needsFoundIn("frame", "  identification module", "ports", "  port1 receiver")).toEqual([]);
  const trial = ["modes", "  arm when TL is down", "  level when TR is mid", "  loss-trial when PB is held"];
  expect(needsFoundIn(...trial, "failsafe", "  then stop")).toEqual([]);
  expect(needsFoundIn(...trial)).toEqual(["mode-needs"]);
});
