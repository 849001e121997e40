/** Rules on packs: their volts, their cells, and their current. */
import { describe, expect, test } from "vitest";
import { checkOnly, reported } from "../check.ts";

describe("pack-order", () => {
  const check = (marked: string) => checkOnly("pack-order", marked);

  test("full, warn, land and cut-off fall in this order; equal is not above", () => {
    check(`
      craft "Jug"
      pack
        full-at 3.5 V/cell
        warn-at 3.5 V/cell
                ^^^^^^^^^^ pack-order
        land-at 3.6 V/cell
                ^^^^^^^^^^ pack-order
    `);
    check(`
      craft "Jug"
      pack
        chemistry lipo
        full-at 4.2 V/cell
        warn-at 3.5 V/cell
        land-at 3.3 V/cell
    `);
  });

  test("a step that nobody said is passed over", () => {
    check(`
      craft "Jug"
      pack
        full-at 3.3 V/cell
        land-at 3.3 V/cell
                ^^^^^^^^^^ pack-order
    `);
    check(`
      craft "Jug"
      pack
        land-at 3.3 V/cell
    `);
  });

  // Cylindrical cells for strong currents are specified down to 2.5 V, and a lipo's floor is about 3.0 V under load (practice).
  test("the cut-off is the chemistry's, and needs one", () => {
    const [found] = check(`
      craft "Jug"
      pack
        chemistry li-ion
        warn-at 3.1 V/cell
        land-at 2.45 V/cell
                ^^^^^^^^^^^ pack-order
    `);
    expect(found!.message).toContain("the cut-off of li-ion (2.5 V/cell)");
    check(`
      craft "Jug"
      pack
        chemistry li-ion
        warn-at 3.1 V/cell
        land-at 2.5 V/cell
    `);
    check(`
      craft "Jug"
      pack
        warn-at 3.1 V/cell
        land-at 2.75 V/cell
    `);
  });

  test("a line with a fault has no value, and a value out of range has one", () => {
    check(`
      craft "Jug"
      pack
        warn-at 3.5 V
                    ^ wrong-unit
        land-at 3.6 V/cell
    `);
    check(`
      craft "Jug"
      pack
        warn-at 1.5 V/cell
        land-at 3.3 V/cell
                ^^^^^^^^^^ pack-order
    `);
  });

  test("each pack is looked at with what it takes over, and what it takes over whole is reported once", () => {
    const found = check(`
      craft "Jug"
      pack
        warn-at 3.3 V/cell
        land-at 3.5 V/cell
                ^^^^^^^^^^ pack-order
      pack "Old"
        capacity 1000 mAh
      pack "Older"
        warn-at 3.45 V/cell
                ^^^^^^^^^^^ pack-order
      pack "New"
        warn-at 3.6 V/cell
    `);
    expect(found[1]!.message).toMatch(/^Pack “Older”: warn-at is 3\.45 V\/cell, which is not above land-at \(3\.5/);
    expect(found[1]!.related).toMatchObject([{ message: "land-at 3.5 V/cell", range: { start: { line: 3 } } }]);
  });

  test("against a value of a layer it stands on the line of the craft, and a note on either line accepts", () => {
    const layer = { "low.fettle": 'layer "Low"\npack\n  land-at 3.5 V/cell\n' };
    const noted = { "low.fettle": 'layer "Low"\npack\n  land-at 3.5 V/cell # allow pack-order: a test bench\n' };
    const over = `
      craft "Jug"
      use "low.fettle"
      pack
        warn-at 3.4 V/cell
                ^^^^^^^^^^ pack-order
    `;
    checkOnly("pack-order", over, layer);
    const silent = over.replace(/^.*\^.*\n/m, "");
    checkOnly("pack-order", silent, noted);
    checkOnly("pack-order", silent.replace("3.4 V/cell", "3.4 V/cell # allow pack-order: a test bench"), layer);
  });
});

describe("pack-chemistry", () => {
  const check = (marked: string) => checkOnly("pack-chemistry", marked);

  // 4.20 V charge limit: cell makers' summaries. 4.35 V: ACT2804 datasheet. Cut-offs: practice.
  test("the charge limit and the cut-off themselves are allowed", () => {
    for (const [chemistry, most] of [
      ["lipo", 4.2],
      ["lihv", 4.35],
      ["li-ion", 4.2],
    ]) {
      check(`
        craft "Jug"
        pack
          chemistry ${chemistry}
          full-at ${most} V/cell
      `);
      const [found] = check(`
        craft "Jug"
        pack
          chemistry ${chemistry}
          full-at 4.36 V/cell
                  ^^^^^^^^^^^ pack-chemistry
      `);
      expect(found).toMatchObject({ severity: "error" });
      expect(found!.message).toContain(`above the ${most} V`);
    }
    const [low] = check(`
      craft "Jug"
      pack
        chemistry lipo
        land-at 2.7 V/cell
                ^^^^^^^^^^ pack-chemistry
    `);
    expect(low).toMatchObject({ severity: "error" });
  });

  test("a storage charge has no usual place here, but it has the limits", () => {
    check(`
      craft "Jug"
      pack
        chemistry lipo
        storage-at 4.25 V/cell
                   ^^^^^^^^^^^ pack-chemistry
      pack "Winter"
        storage-at 3.85 V/cell
    `);
  });

  // Common practice, no source: 3.5 and 3.3 V for lipo, about 3.3 and 3.0 for one cell that sags, 3.1 and 2.9 for li-ion.
  test("what pilots commonly set is usual", () => {
    for (const [chemistry, warn, land] of [
      ["lipo", 3.5, 3.3],
      ["lipo", 3.3, 3],
      ["lihv", 3.3, 3],
      ["li-ion", 3.1, 2.9],
    ])
      check(`
        craft "Jug"
        pack
          chemistry ${chemistry}
          warn-at ${warn} V/cell
          land-at ${land} V/cell
      `);
  });

  test("one chemistry's volts on another are a warning", () => {
    const [warn, land] = check(`
      craft "Jug"
      pack
        chemistry li-ion
        warn-at 3.5 V/cell
                ^^^^^^^^^^ pack-chemistry
        land-at 3.3 V/cell
                ^^^^^^^^^^ pack-chemistry
    `);
    expect([warn!.severity, land!.severity]).toEqual(["warning", "warning"]);
    expect(warn!.message).toContain("2.6 to 3.4 V/cell is usual for li-ion");
    check(`
      craft "Jug"
      pack
        chemistry lipo
        land-at 2.9 V/cell
                ^^^^^^^^^^ pack-chemistry
    `);
  });

  test("without a chemistry nothing is said, and a named pack may have its own", () => {
    check(`
      craft "Jug"
      pack
        full-at 4.35 V/cell
      pack "Plain"
        chemistry lipo
                  ^^^^ pack-chemistry
      pack "High"
        chemistry lihv
    `);
  });
});

describe("cells-ambiguous", () => {
  const check = (marked: string) => checkOnly("cells-ambiguous", marked);

  // Four cells at 4.2 V are 16.8 V, five at 3.3 V 16.5 V; three are 12.6 V, and four empty ones 13.2 V.
  test("the first two counts that one voltage fits are named", () => {
    const [found] = check(`
      craft "Jug"
      pack
        cells detect
              ^^^^^^ cells-ambiguous
        full-at 4.2 V/cell
        land-at 3.3 V/cell
    `);
    expect(found!.message).toContain("From 16.5 V to 16.8 V a pack can be of 4 nearly full cells or of 5 nearly empty");
  });

  test("a pack above the board's limit is not considered", () => {
    const text = (limit: string) => `
      craft "Jug"
      board
        input-limit ${limit}
      pack
        cells detect
        full-at 4.2 V/cell
        land-at 3.3 V/cell
    `;
    check(text("16.8 V"));
    check(text("20.9 V"));
    check(text("21 V").replace("cells detect\n", "cells detect\n              ^^^^^^ cells-ambiguous\n"));
  });

  test("the chemistry stands in for volts that are not said, and without any nothing is known", () => {
    check(`
      craft "Jug"
      pack
        chemistry lipo
        cells detect
              ^^^^^^ cells-ambiguous
    `);
    check(`
      craft "Jug"
      pack
        cells detect
    `);
    check(`
      craft "Jug"
      pack
        cells detect
        full-at 4.2 V/cell
    `);
  });

  test("a named pack says its own count", () => {
    check(`
      craft "Jug"
      pack
        cells 4
        chemistry lipo
      pack "Any"
        cells detect
              ^^^^^^ cells-ambiguous
    `);
  });
});

describe("current-over-rating", () => {
  const check = (marked: string) => checkOnly("current-over-rating", marked);

  // EN 61434: I = C × capacity / 1 h; 5 Ah at 2C is 10 A.
  test("capacity times rating is allowed, and not a tenth more", () => {
    const text = (amps: string) => `
      craft "Jug"
      pack
        capacity 5 Ah
        discharge-rating 2 C
        full-current ${amps}
    `;
    check(text("10 A"));
    check(text("10000 mA"));
    const [found] = check(text("10.1 A\n                     ^^^^^^ current-over-rating"));
    expect(found).toMatchObject({ severity: "hint" });
    const [far] = check(text("15 A\n                     ^^^^ current-over-rating"));
    expect(far).toMatchObject({ severity: "warning" });
    expect(found!.message).toContain("10.1 A at full throttle, and the pack is rated for 10 A (5000 mAh at 2 C)");
  });

  test("the controllers share the current: four of them where the frame does not say", () => {
    const text = (motors: string, mark = "") => `
      craft "Jug"
      frame
        ${motors}
      motors
        esc-rating 30 A
      pack
        full-current 121 A${mark}
    `;
    const mark = "\n                     ^^^^^ current-over-rating";
    check(text("mass 500 g", mark));
    check(text("motors 4", mark));
    check(text("motors 6"));
  });

  test("both at once are one finding", () => {
    check(`
      craft "Jug"
      motors
        esc-rating 20 A
      pack
        capacity 1000 mAh
        discharge-rating 50 C
        full-current 100 A
                     ^^^^^ current-over-rating
    `);
  });

  test("a weaker pack is reported at its own line", () => {
    const [found] = check(`
      craft "Jug"
      pack
        capacity 1100 mAh
        discharge-rating 120 C
        full-current 132 A
      pack "Tired"
        discharge-rating 60 C
                         ^^^^ current-over-rating
    `);
    expect(found!.message).toMatch(/^Pack “Tired”: .* rated for 66 A/);
  });

  test("nothing is said of what is not said", () => {
    check(`
      craft "Jug"
      pack
        capacity 1100 mAh
        full-current 132 A
    `);
  });
});

test.each([
  ["lipo", "warn-at 3.9 V/cell", "the warning rings just after take-off"],
  ["lihv", "warn-at 3.85 V/cell", "the warning rings just after take-off"],
  ["li-ion", "warn-at 3.6 V/cell", "the warning rings just after take-off"],
  ["lipo", "warn-at 3.05 V/cell", "next to nothing is left for the way home"],
  ["li-ion", "land-at 3.3 V/cell", "land with about half of the charge unused"],
  ["lipo", "full-at 3.95 V/cell", "holds four fifths of its charge or less"],
])("pack-chemistry says what comes of it: %s %s", (chemistry, line, says) => {
  const found = reported("pack-chemistry", ["pack", `  chemistry ${chemistry}`, `  ${line}`]);
  expect(found).toEqual([expect.stringContaining(says)]);
  expect(found[0]).toMatch(/Correct it, or the chemistry if the pack is of another kind\.$/);
});

test.each([
  ["warn-at 21 V", "divide by the number of cells; of 6 cells 21 V are 3.5 V/cell."],
  ["warn-at 3.5 V", "write V/cell if 3.5 V are those of one cell."],
  ["divider-top 3.5 V", "and “V” is a unit of another kind."],
])("wrong-unit tells the volts of the pack from those of a cell: %s", (line, says) => {
  expect(reported("wrong-unit", ["pack", `  ${line}`])).toEqual([expect.stringContaining(says)]);
});
