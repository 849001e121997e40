/** Gestures on a dial: where it stood, what was done, where it stands then, in us. */
import { describe, expect, test } from "vitest";
import { knobShare, pulseAtShare, turnedBy, turnedByKey, wheelSteps } from "../../client/panel/dial-turn.ts";
import { dial } from "../draw/samples.ts";

const plain = { shiftKey: false, ctrlKey: false, altKey: false, metaKey: false };
const SHIFT = { ...plain, shiftKey: true };
const whole = dial("KN", 9, [{ fromUs: 1000, toUs: 2000, modes: [] }]);
const reversed = dial("KN", 9, [{ fromUs: 2000, toUs: 1000, modes: [] }]);
const narrow = dial("KN", 9, [{ fromUs: 1200, toUs: 1210, modes: [] }]);
const threeSpans = dial("KN", 9, [
  { fromUs: 1000, toUs: 1299, modes: [] },
  { fromUs: 1300, toUs: 1700, modes: ["hold-height"] },
  { fromUs: 1701, toUs: 2000, modes: ["lights"] },
]);
const fallingSpans = dial("KN", 9, [
  { fromUs: 2000, toUs: 1701, modes: ["lights"] },
  { fromUs: 1700, toUs: 1000, modes: [] },
]);

describe("keys", () => {
  test.each([
    ["an arrow up is a fiftieth", whole, 1500, "ArrowUp", plain, 1520],
    ["to the right as well", whole, 1500, "ArrowRight", plain, 1520],
    ["down", whole, 1500, "ArrowDown", plain, 1480],
    ["to the left as well", whole, 1500, "ArrowLeft", plain, 1480],
    ["with Shift by one us", whole, 1500, "ArrowUp", SHIFT, 1501],
    ["at the upper end it stays", whole, 2000, "ArrowUp", plain, 2000],
    ["near the upper end it stops there", whole, 1995, "ArrowUp", plain, 2000],
    ["at the lower end it stays", whole, 1000, "ArrowLeft", plain, 1000],
    ["on a narrow range by one us at least", narrow, 1203, "ArrowUp", plain, 1204],
    ["Home: the lowest pulse", whole, 1500, "Home", plain, 1000],
    ["End: the highest pulse", whole, 1500, "End", plain, 2000],
    ["Home of a reversed dial: the lowest pulse too", reversed, 1500, "Home", plain, 1000],
    ["End of a reversed dial", reversed, 1500, "End", plain, 2000],
    ["an arrow up raises the pulse of a reversed dial", reversed, 1500, "ArrowUp", plain, 1520],
    ["a page of a range that does the same is a tenth", whole, 1500, "PageUp", plain, 1600],
    ["a page down", whole, 1040, "PageDown", plain, 1000],
    ["a page goes into the next range", threeSpans, 1100, "PageUp", plain, 1500],
    ["and out of it", threeSpans, 1500, "PageUp", plain, 1851],
    ["in the last range to the end", threeSpans, 1851, "PageUp", plain, 2000],
    ["in the first range to the end", threeSpans, 1290, "PageDown", plain, 1000],
    ["into the next range of a reversed dial", fallingSpans, 1100, "PageUp", plain, 1851],
    ["down on a reversed dial", fallingSpans, 1851, "PageDown", plain, 1350],
    ["not with Ctrl", whole, 1500, "Home", { ...plain, ctrlKey: true }, null],
    ["not with Alt", whole, 1500, "ArrowUp", { ...plain, altKey: true }, null],
    ["not with the command key", whole, 1500, "End", { ...plain, metaKey: true }, null],
    ["no other key", whole, 1500, "l", plain, null],
  ] as const)("%s", (_, one, from, key, modifiers, to) => {
    expect(turnedByKey(one, from, { ...modifiers, key })).toBe(to);
  });
});

describe("the wheel", () => {
  const turn = (deltaY: number, more: Partial<Parameters<typeof wheelSteps>[0]> = {}, left = 0) =>
    wheelSteps({ ...plain, deltaX: 0, deltaY, deltaMode: 0, ...more }, left);

  test.each([
    ["a notch away from the hand", turn(-120), { steps: 1, leftPx: 0 }],
    ["a notch towards the hand", turn(100), { steps: -1, leftPx: 0 }],
    ["three notches at once", turn(-360), { steps: 3, leftPx: 0 }],
    ["a notch in lines", turn(3, { deltaMode: 1 }), { steps: -1, leftPx: 0 }],
    ["sideways, as Shift makes it", turn(0, { deltaX: -120, shiftKey: true }), { steps: 1, leftPx: 0 }],
    ["a small move is kept", turn(-15), { steps: 0, leftPx: 15 }],
    ["until it is a step", turn(-15, {}, 30), { steps: 1, leftPx: 5 }],
    ["what was left the other way is dropped", turn(15, {}, 30), { steps: 0, leftPx: -15 }],
    ["Ctrl zooms", turn(-120, { ctrlKey: true }), null],
  ])("%s", (_, got, expected) => {
    expect(got).toEqual(expected);
  });

  test("steps stop at the ends", () => {
    expect(turnedBy(whole, 1990, 3, "usual")).toBe(2000);
    expect(turnedBy(whole, 1005, -1, "usual")).toBe(1000);
    expect(turnedBy(whole, 1500, -2, "fine")).toBe(1498);
  });
});

describe("the pointer", () => {
  test.each([
    ["straight up: the middle", [0, -1], null, 1500],
    ["to the left", [-1, 0], null, 1167],
    ["to the right", [1, 0], null, 1833],
    ["at the lower left stop", [-1, 1], null, 1000],
    ["at the lower right stop", [1, 1], null, 2000],
    ["outside the knob: only the direction counts", [0, -9], null, 1500],
    ["in the gap, from the left", [-0.2, 1], 0.1, 1000],
    ["across the gap it stays at its stop", [0.2, 1], 0, 1000],
    ["across the gap from the right", [-0.9, 1], 0.95, 2000],
    ["and is taken up again where it left", [0.9, 0.6], 0.95, 1958],
  ] as const)("%s", (_, [x, y], before, pulseUs) => {
    expect(pulseAtShare(whole, knobShare(x, y, before)!)).toBe(pulseUs);
  });

  test("too near to the middle nothing is meant", () => {
    expect(knobShare(0.1, 0.1, null)).toBeNull();
  });

  test("a reversed dial is drawn by its pulse, and turned so", () => {
    expect(pulseAtShare(reversed, knobShare(-1, 1, null)!)).toBe(1000);
  });
});
