/** Modes of flight and the arm switch: what can never be used, and what lets go of the motors. */
import { expect, test } from "vitest";
import { reported } from "../check.ts";

const modes = (code: string, ...lines: string[]) =>
  reported(code, ["modes", ...lines.map((line) => `  ${line}`)]).map((each) => each.split(": ")[0]);

test("mode-only-disarmed: a mode of flight on the wrong side of the arm switch", () => {
  const found = (...lines: string[]) => modes("mode-only-disarmed", "arm when TL is down", ...lines);
  expect(found("recorder when not arm")).toEqual(["warning recorder when not arm"]);
  expect(found("rates-second when TL is up and TR is down")).toEqual([
    "warning rates-second when TL is up and TR is down",
  ]);
  expect(found("recorder when arm", "rates-second when TR is down", "level when TR is mid or not arm")).toEqual([]);
  // What serves on the ground, or is chosen there, may be on there alone.
  expect(found("finder when not arm", "turtle when TR is up and not arm", "video-low when not arm")).toEqual([]);
  expect(modes("mode-only-disarmed", "recorder when TL is up")).toEqual([]);
});

test("mode-only-disarmed: several modes are the arm switch's doing, and one finding", () => {
  expect(
    reported("mode-only-disarmed", [
      "modes",
      "  arm when TR is up",
      "  level when TR is mid",
      "  level-blend when TR is down",
      "  recorder when arm",
    ]),
  ).toEqual([
    "warning arm when TR is up: level and level-blend are never on while the craft is armed, and on the ground they do nothing: look at the position that arm asks for.",
  ]);
});

test("mode-only-disarmed: a recorder that runs by itself in flight may have its mode for the bench", () => {
  const recorder = (starts: string) =>
    reported("mode-only-disarmed", [
      "modes",
      "  arm when TL is down",
      "  recorder when not arm",
      "recorder",
      `  starts ${starts}`,
    ]);
  expect(recorder("both")).toEqual([]);
  expect(recorder("mode")).toHaveLength(1);
});

test("arm-let-go: a switch that is moved in flight must not hold the motors", () => {
  const found = (...lines: string[]) => modes("arm-let-go", ...lines);
  const arm = "warning arm when TL is down and TR is down";
  expect(found("arm when TL is down and TR is down", "level when TR is down")).toEqual([arm]);
  expect(found("arm when TL is down and TR is down", "turtle when TR is up")).toEqual([]);
  expect(found("arm when TL is down", "arm-permit when TR is down", "level when TR is down")).toEqual([]);
  // One selector may both arm and choose how it flies.
  expect(found("arm when TR is mid or TR is down", "level when TR is mid")).toEqual([]);
  // A mode that asks for arm depends on its switches through it alone.
  expect(found("arm when TL is down and PB is rest", "level when arm and TR is mid")).toEqual([]);
});

test("permit-idle: arm and its permission that exclude each other", () => {
  const found = (...lines: string[]) => modes("permit-idle", ...lines);
  expect(found("arm when TL is down", "arm-permit when TL is up")).toEqual(["error arm-permit when TL is up"]);
  expect(found("arm when TL is down", "arm-permit when TL is down or PB is held")).toEqual([
    "warning arm-permit when TL is down or PB is held",
  ]);
  expect(found("arm when TL is down", "arm-permit when TR is up")).toEqual([]);
  // What can never be on by itself is another rule's business.
  expect(found("arm when TL is down", "arm-permit when TR is up and TR is down")).toEqual([]);
});
