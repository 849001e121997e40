/** unusual-value: judged by the size that a file says, and in a craft by the craft's own. */
import { expect, test } from "vitest";
import { checkOnly } from "../check.ts";

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
  expect(found!.message).toContain(
    "5000 rpm/V, where 200 rpm/V to 2500 rpm/V is usual with propellers of 8 in and more",
  );
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
  // 1 to 18 % with small propellers, 1 to 12 % with others: 15 % may be right, 30 % is not.
  check(`
    layer "Whoops"
    motors
      idle 15 %
  `);
  check(`
    layer "Whoops"
    motors
      idle 30 %
           ^^^^ unusual-value
  `);
  // Without a size no band of this one counts.
  check(`
    layer "Motors"
    motors
      kv 60000 rpm/V
  `);
});

test("a named pack is judged by its own cells", () => {
  // 80 to 6000 mAh with one cell, 100 mAh and more with others.
  check(`
    craft "Jug"
    pack
      cells 1
      capacity 90 mAh
    pack "Two"
      cells 2
      capacity 90 mAh
               ^^^^^^ unusual-value
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
