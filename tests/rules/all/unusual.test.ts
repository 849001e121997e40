/** unusual-value: judged by the size that a file says, and in a craft by the craft's own. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { checkOnly, workspaceOf } from "../check.ts";

const check = (marked: string, others: Readonly<Record<string, string>> = {}) =>
  checkOnly("unusual-value", marked, others);

test("a layer is judged by itself, and a craft not once more for what the layer shows", () => {
  check(`
    craft "Jug"
    use "tune.fettle"
    === tune.fettle
    layer "Tune"
    safety
      arm-tilt-limit 2 deg
                     ^^^^^ unusual-value
  `);
});

test("what a size shows only in the craft stands on the use line, with the line related", () => {
  const [found] = check(`
    craft "Jug"
    use "motors.fettle"
        ^^^^^^^^^^^^^^^ unusual-value
    frame
      propeller-diameter 10 in
    === motors.fettle
    layer "Motors"
    motors
      kv 5000 rpm/V
      poles 14
  `);
  expect(found).toMatchObject({ severity: "hint" });
  expect(found!.message).toContain("5000 rpm/V, where 200 rpm/V to 2500 rpm/V is usual with propellers of 8 to 11 in");
  expect(found!.related).toMatchObject([{ file: "motors.fettle", range: { start: { line: 2, character: 5 } } }]);
});

test("the size may come from a layer, in another unit, and be overridden", () => {
  const frame = { "frame.fettle": 'layer "Frame"\nframe\n  propeller-diameter 254 mm\n' };
  check(
    `
    craft "Jug"
    use "frame.fettle"
    motors
      kv 5000 rpm/V
         ^^^^^^^^^^ unusual-value
  `,
    frame,
  );
  check(
    `
    craft "Jug"
    use "frame.fettle"
    frame
      propeller-diameter 3 in
    motors
      kv 5000 rpm/V
  `,
    frame,
  );
});

test("a value that a later line overrides is not judged, and each field by the line that says it", () => {
  check(`
    craft "Jug"
    use "tune.fettle"
    safety
      arm-tilt-limit 30 deg
    rates
      roll slope 150 deg/s end 700 deg/s
      pitch end 4000 deg/s
                ^^^^^^^^^^ unusual-value
    === tune.fettle
    layer "Tune"
    rates
      roll end 650 deg/s
      pitch slope 150 deg/s end 650 deg/s
  `);
});

test("a layer that says no size is only held to what is unusual for every size", () => {
  // 1 to 18 % with small propellers, 1 to 10 % with large ones: 15 % may be right, 30 % is not.
  check(`
    layer "Whoops"
    motors
      idle 15 %
  `);
  const [found] = check(`
    layer "Whoops"
    motors
      idle 30 %
           ^^^^ unusual-value
  `);
  expect(found!.message).toContain("30 %, where 1 % to 18 % is usual (");
  // So many turns are right for no size at all.
  check(`
    layer "Motors"
    motors
      kv 60000 rpm/V
         ^^^^^^^^^^^ unusual-value
      poles 14
  `);
});

test("a named pack is judged by its own cells", () => {
  // 80 to 6000 mAh with one cell, up to 90 Ah with others.
  check(`
    craft "Jug"
    pack
      cells 1
      capacity 8 Ah
               ^^^^ unusual-value
    pack "Two"
      cells 2
      capacity 8 Ah
  `);
});

test("every item of a list, and both ends of what follows a dial", () => {
  check(`
    craft "Jug"
    use "wheel.fettle"
    filters
      smooth-gyro cut 300 Hz
      smooth-gyro cut 30 Hz
                      ^^^^^ unusual-value
    frame
      propeller-diameter 5 in
    adjust
      overall follows KN from 0.9 to 4
                                     ^ unusual-value
  `);
});

test.each([
  ["gains\n  roll p 45 i 80 d 32", ["45 looks like another scale: a gain here is a ratio", "80 looks", "32 looks"]],
  ["gains\n  roll p 0.04", ["0.04 looks like another scale"]],
  [
    "rates\n  roll slope 1.2 deg/s end 6.7 deg/s",
    ["1.2 deg/s looks like another scale: a rate here is how far", "6.7 deg/s looks"],
  ],
  [
    "pack\n  warn-at 21 V/cell\n  land-at 9.9 V/cell",
    [
      "21 V/cell looks like the volts of the whole pack: of 6 cells that is 3.5 V/cell.",
      "of 3 cells that is 3.3 V/cell.",
    ],
  ],
  ["frame\n  hover-throttle 1250 %", ["is at most 99 %", "Was 1250 us meant?"]],
  ["failsafe\n  descend-throttle 20 us", ["Was 20 % meant?"]],
  ["rates\n  throttle-limit 0.8 %", ["0.8 looks like a share of one: as a percentage it is 80 %."]],
  ["sensors\n  gyro-rate 8000 kHz", ["Was 8000 Hz meant?"]],
  ["frame\n  mass 0.64 g", ["or 0.64 kg meant?"]],
  ["pack\n  capacity 1.3 mAh", ["Was 1.3 Ah meant?"]],
  // A little beyond what is usual is no other scale.
  ["gains\n  roll p 4.3", ["4.3, where 0.15 to 4 is usual (common practice, no source)."]],
  ["frame\n  propeller-diameter 31 in", ["Was 31 cm or 31 mm meant?"]],
  ["frame\n  propeller-diameter 51 in", ["is at most 40 in", "Was 51 mm meant?"]],
  ["failsafe\n  hold-for 800 s", ["Was 800 ms meant?"]],
  ["failsafe\n  hold-for 6 s", ["0 s to 5 s is usual (common practice, no source)."]],
  [
    "frame\n  propeller-diameter 5 in\nmotors\n  kv 195 rpm/V",
    ["1950 rpm/V would be usual: is the point in its place?"],
  ],
  ["frame\n  propeller-diameter 16 in\npack\n  cells 1", ["10 would be usual: is a nought missing?"]],
  ["navigation\n  fix-needs 80", ["8 would be usual: is there a nought too many?"]],
  [
    "frame\n  propeller-diameter 5 in\nmotors\n  kv 900 rpm/V",
    ["with propellers of 3.2 to 5.6 in (common practice, no source)."],
  ],
  ["motors\n  poles 7", ["poles is a multiple of 2, and 7 is none (by definition: magnets come in pairs"]],
])("%s: the message says what was most likely meant", (lines, parts) => {
  const all = findingsOf(workspaceOf({ "jug.fettle": `craft "Jug"\n${lines}\n` }), "jug.fettle")
    .filter(({ code }) => code === "unusual-value" || code === "out-of-range")
    .map(({ message }) => message)
    .join("\n");
  for (const part of parts) expect(all).toContain(part);
});

test("what is not known of a craft may be of any kind: only what is unusual for each of them counts", () => {
  const mass = (more: string, grams: number, mark = "") =>
    check(`craft "Jug"\nframe\n  propeller-diameter 10 in\n${more}  mass ${grams} g\n${mark}`);
  // 350 to 5200 g with four motors, 770 to 14000 g with eight.
  mass("", 9000);
  mass("", 20000, "       ^^^^^^^ unusual-value\n");
  mass("  motors 4\n", 9000, "       ^^^^^^ unusual-value\n");
  mass("  motors 8\n", 500, "       ^^^^^ unusual-value\n");
  mass("", 500);
});

test("where the throttle rests is said by the band in its middle, and may be there where motors run both ways", () => {
  const limit = (motors: string) =>
    findingsOf(
      workspaceOf({ "jug.fettle": `craft "Jug"\n${motors}safety\n  arm-throttle-limit 1500 us\n` }),
      "jug.fettle",
    ).filter(({ code }) => code === "unusual-value").length;
  expect(limit("")).toBe(1);
  expect(limit("motors\n  reversible no\n")).toBe(1);
  expect(limit("motors\n  reversible yes\n")).toBe(0);
  expect(limit("motors\n  reversible yes\n  reverse-band 1480 us to 1520 us\n")).toBe(0);
  expect(limit("safety\n  arm-throttle middle\n")).toBe(0);
  expect(limit("motors\n  reversible yes\nsafety\n  arm-throttle low\n")).toBe(1);
});

test("a damping cut that a craft with notches bears is unusual on one without any", () => {
  const cut = (filters: string) =>
    findingsOf(
      workspaceOf({
        "jug.fettle": `craft "Jug"\nframe\n  propeller-diameter 5 in\nfilters\n  smooth-d cut 400 Hz\n${filters}`,
      }),
      "jug.fettle",
    )
      .filter(({ code }) => code === "unusual-value")
      .map(({ message }) => message);
  expect(cut("")).toEqual([expect.stringContaining("with propellers of 2.6 to 5.6 in and no notch")]);
  expect(cut("  motor-notches count 3 floor 100 Hz width 20 Hz\n")).toEqual([]);
  expect(cut("  notch at 180 Hz width 30 Hz\n")).toEqual([]);
  // A layer by itself does not know what the craft has besides.
  const layer = 'layer "Tune"\nframe\n  propeller-diameter 5 in\nfilters\n  smooth-d cut 400 Hz\n';
  expect(findingsOf(workspaceOf({ "tune.fettle": layer }), "tune.fettle")).toEqual([]);
});
