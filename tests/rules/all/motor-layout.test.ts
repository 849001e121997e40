/** Frames with their motors, sound ones and such as go over when they lift, or spin. Directions: common practice, no source. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { understood, workspaceOf } from "../check.ts";
import { craftOf } from "../motors-in-short.ts";

function found(text: string) {
  const script = craftOf(text);
  const findings = understood(findingsOf(workspaceOf({ "jug.fettle": script }), "jug.fettle"));
  return findings
    .filter(({ code }) => code === "motor-layout")
    .map(({ range, message, related }) => ({
      line: script.split("\n")[range.start.line]!.trim().split(" ")[0]!,
      message,
      related: related.length,
    }));
}

const X_IN = "rl acw, fl cw, fr acw, rr cw";
const X_OUT = "rl cw, fl acw, fr cw, rr acw";

describe("sound frames show nothing", () => {
  test.each([
    `4 true-x props-in: ${X_IN}`,
    `4 wide-x props-out: ${X_OUT}`,
    `4 stretched-x: ${X_OUT}`,
    // With less and less of it said.
    `-: ${X_OUT}`,
    `props-out: ${X_OUT}`,
    "4 true-x props-in: -, fl cw",
    "4 true-x: rl cw, -, fr cw",
    "props-in: rl, fl, fr, rr",
    "4 true-x: rl, fl, fr, rr",
    "4 props-out: -",
    "-: acw, cw, acw, cw",
    "4 true-x props-in: cw 1, acw 2, cw 3, acw 4",
    "-: rl cw 4, fl acw 1, fr cw 3, rr acw 2",
    // Of four arms, one to each side.
    "4 plus: r cw, left acw, f cw, right acw",
    "4: r acw, left cw, f acw, right cw",
    "plus props-in: r cw, left acw, f cw, right acw",
    // Three arms: a servo balances what the motors' drag leaves.
    "3 tri: r cw, fl cw, fr cw",
    "3 tri: rl cw, f acw, rr cw",
    "3 tri: r cw, left cw, right acw",
    "tri: r, fl, fr",
    "3: r cw, fl acw, fr cw",
    // Six.
    "6 hexagon props-in: rl cw, left acw, fl cw, fr acw, right cw, rr acw",
    "6 hexagon: r cw, rl acw, fl cw, f acw, fr cw, rr acw",
    "hexagon: r cw, rl acw, fl cw, f acw, fr cw, rr acw",
    "6: fl cw, fr cw, f acw, rl acw, rr acw, r cw",
    "6 hexagon: fl cw, fr cw",
    // Eight, in a ring.
    "8 octagon: rl cw, lr acw, lf cw, fl acw, fr cw, rf acw, r-r cw, rr acw",
    "8 octagon: r cw, rl acw, left cw, fl acw, f cw, fr acw, right cw, rr acw",
    // Pairs on four arms, the upper ones by turns or all alike, and on three.
    "8 stacked props-in: rl acw, fl cw, fr acw, rr cw, u-rl cw, u-fl acw, u-fr cw, u-rr acw",
    "8 stacked: rl cw, fl cw, fr cw, rr cw, u-rl acw, u-fl acw, u-fr acw, u-rr acw",
    "8 stacked props-out: rl cw, fl cw, fr cw, rr cw, u-rl acw, u-fl acw, u-fr acw, u-rr acw",
    "8: f cw, right acw, r cw, left acw, u-f acw, u-right cw, u-r acw, u-left cw",
    "6 stacked: fl cw, fr cw, r cw, u-fl acw, u-fr acw, u-r acw",
    "stacked: fl cw, fr acw, r cw, u-fl acw, u-fr cw, u-r acw",
    // Places that more than one frame has, while nothing is said of the frame; on six or eight arms these turn alike.
    "-: rl, left, fl, fr, right, rr",
    "-: lf cw, fl cw",
    "-: rl cw, left cw",
    "-: fl cw, fr cw, -, -, rl acw",
    // What is said of the set speaks of a pair at the front, and of upper motors that turn against each other.
    "6 hexagon props-in: f cw, fr acw",
    "8 octagon props-out: f cw, fr acw",
    "8 stacked props-in: fl acw",
    "8 stacked props-in: fl acw, fr acw",
    // Frames that this page knows nothing of.
    "5: fl cw, fr acw, rr cw, rl acw, r cw",
    "12: rl cw, fl cw, fr cw, rr cw",
    "2: left cw, right acw",
  ])("%s", (text) => {
    expect(found(text)).toEqual([]);
  });
});

describe("each fault has one finding, at the motor's line", () => {
  test.each([
    // One corner, or one output, twice.
    ["4 true-x: rl, fl, fl, rr", "motor3", "stands at front-left, where motor2 (front-left, line 7) stands already"],
    ["-: rl, rl", "motor2", "stands at rear-left, where motor1"],
    ["-: rl cw 1, fl acw 2, fr cw 2, rr acw 4", "motor3", "output 2, as motor2 (front-left, line 6) is"],
    // More motors than the frame has.
    [
      `4 true-x: ${X_IN}, left cw`,
      "motor5",
      "The frame has 4 motors (frame.motors, line 3), and motor5 is said beyond them",
    ],
    [
      `true-x: ${X_IN}, left cw, right cw`,
      "motor5",
      "(frame.arm-layout, line 3), and motor5 and motor6 are said beyond them",
    ],
    ["3: r, fl, fr, rr", "motor4", "The frame has 3 motors"],
    // Number against layout.
    ["6 true-x: -", "motors", "to have 6 motors, and arm-layout true-x (line 4) has 4"],
    ["4 tri: -", "motors", "arm-layout tri (line 4) has 3"],
    ["4 hexagon: -", "motors", "has 6:"],
    ["6 octagon: -", "motors", "has 8:"],
    ["4 stacked: -", "motors", "has 6 or 8:"],
    ["8 plus: -", "motors", "has 4:"],
    ["6 true-x: rl cw, fl acw, fr cw, rr acw", "motors", "has 4:"],
    ["6 true-x: rl cw, left acw, fl cw, fr acw, right cw, rr acw", "motors", "has 4:"],
    // Places that such a frame does not have.
    [
      "true-x: left",
      "motor1",
      "With arm-layout true-x (line 3) and the other motors where they stand, motor1 has no place at left: such",
    ],
    ["8: u-fl, u-fr, left, fl", "motor3", "With motors 8 (line 3) and"],
    ["4 true-x: rl, left, fr, rr", "motor2", "motor2 has no place at left"],
    ["4 plus: f, r, left, fr", "motor4", "motor4 has no place at front-right"],
    ["6 hexagon: rl, left, fl, fr, right, u-rr", "motor6", "no place at under-rear-right"],
    ["4 true-x: rl, fl, u-fr, rr", "motor3", "no place at under-front-right"],
    ["4: f, r, left, rr", "motor4", "no place at rear-right"],
    ["8 stacked: rl, fl, fr, rr, lr, lf, rf, r-r", "motor5", "nor motor6 at left-front, motor7 at right-front and"],
    ["3 tri: fl, fr, rl", "motor3", "no place at rear-left"],
    // Neighbours that turn alike.
    [
      "4 true-x: rl cw, fl acw, fr acw, rr acw",
      "motor3",
      "motor2 (front-left, line 7) and motor4 (rear-right, line 9) turn so too: neighbours",
    ],
    ["true-x: fl cw, fr cw", "motor2", "turns clockwise, and motor1 (front-left, line 5) turns so too: neighbours"],
    ["-: rl cw, fl acw, fr acw, rr cw", "motor4", "neighbours must turn against each other"],
    [
      "4 plus: f cw, right acw, r cw, left cw",
      "motor4",
      "and motor1 (front, line 6) and motor3 (rear, line 8) turn so too",
    ],
    ["-: cw, fl acw, rl acw", "motor3", "neighbours"],
    ["6 hexagon: rl cw, left acw, fl cw, fr acw, right acw, rr acw", "motor5", "neighbours"],
    ["8 octagon: rl cw, lr acw, lf cw, fl acw, fr acw, rf acw, r-r cw, rr acw", "motor5", "neighbours"],
    [
      "4 true-x: rl acw, fl acw, fr cw, rr acw",
      "motor1",
      "motor2 (front-left, line 7) and motor4 (rear-right, line 9) turn so too",
    ],
    // A diagonal pair that must turn alike, and an opposite one that must not.
    [
      "4 true-x: rl cw, -, fr acw",
      "motor3",
      "turns anticlockwise, and motor1 (rear-left, line 6) turns clockwise: round the frame every second motor turns the same way",
    ],
    ["6 hexagon: left cw, right cw", "motor2", "every second motor turns the other way"],
    // A stacked pair.
    [
      "8 stacked: rl cw, fl acw, fr cw, rr acw, u-rl cw, u-fl cw",
      "motor5",
      "motor1 (rear-left, line 6) turns so too: the two motors of one arm",
    ],
    ["6 stacked: fl cw, fr cw, r cw, u-fl acw, u-fr acw, u-r cw", "motor6", "the two motors of one arm"],
    ["8: f cw, u-f cw", "motor2", "the two motors of one arm"],
    // The whole set against what is said of it.
    [
      `4 wide-x props-out: ${X_IN}`,
      "spin",
      "With props-out a motor at front-left turns anticlockwise, seen from above, and motor2 (front-left, line 8) turns clockwise",
    ],
    ["props-in: fl acw", "spin", "With props-in a motor at front-left turns clockwise"],
    ["props-in: rr acw", "spin", "With props-in a motor at rear-right turns clockwise"],
    ["6 hexagon props-in: left cw", "spin", "a motor at left turns anticlockwise"],
    ["8 octagon props-in: fl acw, lf cw", "spin", "a motor at front-left turns clockwise"],
    ["8 stacked props-in: rl cw, fl acw, fr cw, rr acw", "spin", "a motor at front-left turns clockwise"],
    // Of two that turn alike, what is said of the set tells which is wrong.
    ["4 true-x props-in: fl acw, fr acw", "motor1", "motor2 (front-right, line 8) turns so too"],
    ["4 true-x props-out: fl acw, fr acw", "motor2", "motor1 (front-left, line 7) turns so too"],
  ])("%s: at %s: %s", (text, line, words) => {
    const reports = found(text);
    expect(reports.map((report) => report.line)).toEqual([line]);
    expect(reports[0]!.message).toContain(words);
    expect(reports[0]!.related).toBeGreaterThan(0);
  });
});

test("two faults have two findings, the same everywhere", () => {
  expect(found("4 true-x: rl 1, rl 1").map(({ line }) => line)).toEqual(["motor2", "motor2"]);
  expect(found("4 true-x props-out: rl acw, fl cw, fr cw, rr cw").map(({ line }) => line)).toEqual(["spin", "motor3"]);
  expect(found("6 hexagon: rl cw, left acw, fl acw, fr acw, right acw, rr acw").map(({ line }) => line)).toEqual([
    "motor3",
    "motor5",
  ]);
});

test("a motor of a layer is told with its file", () => {
  const files = {
    "jug.fettle": 'craft "Jug"\nuse "base.fettle"\nmotors\n  motor2 place front-left direction clockwise\n',
    "base.fettle": 'layer "Base"\nmotors\n  motor1 place front-right direction clockwise\n',
  };
  const [finding] = findingsOf(workspaceOf(files), "jug.fettle").filter(({ code }) => code === "motor-layout");
  expect(finding).toMatchObject({ severity: "error", file: "jug.fettle", range: { start: { line: 3 } } });
  expect(finding!.message).toContain("motor1 (front-right, line 3 of base.fettle)");
  expect(finding!.related[0]).toMatchObject({ file: "base.fettle", range: { start: { line: 2 } } });
});

test("a line with a fault says nothing of its motor", () => {
  const text = 'craft "Jug"\nmotors\n  motor1 place front-left direction kettle\n  motor2 place front-left\n';
  const codes = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle").map(({ code }) => code);
  expect(codes).toEqual(["unknown-name"]);
});
