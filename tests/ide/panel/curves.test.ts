import { expect, test } from "vitest";
import { filtersPictureOf, ratesPictureOf } from "../../../shared/ide/panel/curves.ts";
import { workspaceOf } from "../../rules/check.ts";

const layer = `layer "Tune"

filters
  notch  at 300 Hz  width 20 Hz
`;
const craft = `craft "Kiln"

use "tune.fettle"

sensors
  loop-rate  4 kHz

rates
  roll            slope 200 deg/s  end 700 deg/s  bend 3
  yaw             slope 500 deg/s  end 500 deg/s
  top-rate        600 deg/s
  throttle-limit  90 %

filters
  smooth-gyro  cut 100 Hz  order 2
  smooth-d     cut 100 Hz  order 1
`;
const files = { "kiln.fettle": craft, "tune.fettle": layer };

function open(more: Readonly<Record<string, string>> = {}) {
  const workspace = workspaceOf({ ...files, ...more });
  return [workspace.craft("kiln.fettle")!, workspace] as const;
}

test("each axis that is said has its curve, capped, with the line that says it", () => {
  const { axes, throttle } = ratesPictureOf(...open())!;
  expect(axes.map(({ name, endDegPerS, at }) => [name, endDegPerS, at?.line])).toEqual([
    ["roll", 600, 8],
    ["yaw", 500, 9],
  ]);
  const [roll, yaw] = axes;
  // 200·x + 500·x³ at the middle and half way: 162.5.
  expect(roll!.points[0]).toEqual([0, 0]);
  expect(roll!.points[20]![1]).toBeCloseTo(162.5);
  expect(Math.max(...roll!.points.map(([, degPerS]) => degPerS))).toBe(600);
  // A straight line is half way up at half way along.
  expect(yaw!.halfAtStick).toBeCloseTo(0.5);
  // Where 200·x + 500·x³ is 300.
  const half = roll!.halfAtStick!;
  expect(200 * half + 500 * half ** 3).toBeCloseTo(300);
  expect(throttle).toMatchObject({ limit: 0.9, at: { line: 11 } });
  expect(throttle!.points.at(-1)).toEqual([1, 0.9]);
});

test("a second set falls back to the first, line by line", () => {
  const second = `${craft}\nrates-second\n  roll  end 300 deg/s\n`;
  const opened = open({ "kiln.fettle": second });
  const { set, axes } = ratesPictureOf(...opened, "rates-second")!;
  expect(set).toBe("rates-second");
  expect(axes.map(({ name, endDegPerS }) => [name, endDegPerS])).toEqual([
    ["roll", 300],
    ["yaw", 500],
  ]);
  expect(axes[0]!.at!.line).not.toBe(8);
  expect(axes[1]!.at!.line).toBe(9);
  expect(ratesPictureOf(...open(), "rates-second")).toBe(null);
});

test("filters: each with its delay and its line, in its own file", () => {
  const picture = filtersPictureOf(...open())!;
  expect(picture.parts.map(({ name, what, chain, at }) => [name, what, chain, at?.line])).toEqual([
    ["smooth-gyro", "order 2 at 100 Hz", "gyro", 14],
    ["notch", "20 Hz wide at 300 Hz", "gyro", 3],
    ["smooth-d", "order 1 at 100 Hz", "damping", 15],
  ]);
  expect(picture.parts[1]!.at!.file).toContain("tune.fettle");
  // Sampled at 4 kHz: 2.246 ms for order 2 and 1.588 ms for order 1 at 100 Hz (computed).
  expect(picture.parts[0]!.delayMs).toBeCloseTo(2.246, 2);
  expect(picture.parts[2]!.delayMs).toBeCloseTo(1.588, 2);
  const [gyro, damping] = picture.chains;
  expect(damping!.delayMs - gyro!.delayMs).toBeCloseTo(1.588, 2);
  expect(picture.motors).toBe(null);
});

test("the response has the middle of every notch, however narrow", () => {
  const [gyro] = filtersPictureOf(...open())!.chains;
  const frequencies = gyro!.response.map(([hz]) => hz);
  expect(frequencies).toEqual([...frequencies].sort((a, b) => a - b));
  const deepest = gyro!.response.reduce((least, point) => (point[1] < least[1] ? point : least));
  expect(deepest[0]).toBe(300);
  // Half the power at the cut of a low-pass: −3 dB.
  const nearCut = gyro!.response.reduce((near, point) =>
    Math.abs(point[0] - 100) < Math.abs(near[0] - 100) ? point : near,
  );
  expect(nearCut[1]).toBeCloseTo(-3.01, 0);
});

test("a craft that says nothing has no pictures of it", () => {
  const opened = open({ "kiln.fettle": 'craft "Kiln"\n' });
  expect(ratesPictureOf(...opened)).toBe(null);
  expect(filtersPictureOf(...opened)).toBe(null);
});

test("a filter that moves is computed at idle, where it delays most, and says so", () => {
  const moving = `${craft}  moving-cut  idle 150 Hz  full 400 Hz\n`;
  const part = filtersPictureOf(...open({ "kiln.fettle": moving }))!.parts.find(({ name }) => name === "moving-cut");
  expect(part!.what).toBe("order 1 at 150 Hz at idle");
  // Order 1: 1 / (2 pi fc) is 1.061 ms at 150 Hz (computed), sampled at 4 kHz a little less.
  expect(part!.delayMs).toBeGreaterThan(1.05);
  expect(part!.delayMs).toBeLessThan(1.061);
});

test("figures that a zero makes infinite are not drawn", () => {
  const still = filtersPictureOf(...open({ "kiln.fettle": craft.replace("4 kHz", "0 kHz") }));
  expect(still).toBe(null);
  const bent = ratesPictureOf(...open({ "kiln.fettle": craft.replace("bend 3", "bend -1") }))!;
  expect(bent.axes.map(({ name }) => name)).toEqual(["yaw"]);
});
