/** The pack's arithmetic and what is read of a craft, held to the sources named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ambiguousCells,
  CHEMISTRIES,
  cellV,
  energyWh,
  fittingCells,
  flightS,
  packV,
  parallelMah,
  ratedCurrentA,
  ratingC,
  sagV,
  sharedMah,
  USUAL_SHARE,
} from "../../shared/numbers/pack.ts";
import { packOf, packsOf } from "../../shared/numbers/pack-of.ts";
import { craftWith } from "./read.ts";

describe("cells", () => {
  // Cell makers' summaries: 3.6 or 3.7 V nominal, 4.20 V charge limit (read).
  test("a plain lithium cell: 3.6 or 3.7 V, 4.20 V", () => {
    for (const chemistry of ["lipo", "li-ion"] as const) {
      const { nominalV, chargeLimitV } = CHEMISTRIES[chemistry];
      expect([3.6, 3.7]).toContain(nominalV);
      expect(chargeLimitV).toBe(4.2);
    }
  });

  // Common practice, no source: 2.5 V for cylindrical cells made for strong currents, about 3.0 V under load for lipo.
  test("cut-offs", () => {
    expect([CHEMISTRIES["li-ion"].cutOffV, CHEMISTRIES.lipo.cutOffV, CHEMISTRIES.lihv.cutOffV]).toEqual([2.5, 3, 3]);
  });

  // ACT2804 datasheet: 4.2 / 4.35 V ± 0.5 % (read).
  test("the high-voltage kind is charged to 4.35 V", () => expect(CHEMISTRIES.lihv.chargeLimitV).toBe(4.35));

  // Common practice, no source: volts under load. Each pair is the usual warn and land of such a craft.
  test.each([
    ["lipo", 3.5, 3.3],
    ["lipo", 3.3, 3.0],
    ["lihv", 3.5, 3.3],
    ["li-ion", 3.1, 2.9],
  ] as const)("what pilots of %s usually set, %f and %f, lies in the usual bands", (chemistry, warn, land) => {
    const { usualV } = CHEMISTRIES[chemistry];
    expect(warn).toBeGreaterThanOrEqual(usualV.warn.from);
    expect(warn).toBeLessThanOrEqual(usualV.warn.to);
    expect(land).toBeGreaterThanOrEqual(usualV.land.from);
    expect(land).toBeLessThanOrEqual(usualV.land.to);
  });

  // Common practice, no source: a lipo's floor is about 3.0 V under load; 2.75 V is a cylindrical cell's figure.
  test("a lipo's usual landing ends at its floor", () => {
    expect(CHEMISTRIES.lipo.usualV.land.from).toBe(CHEMISTRIES.lipo.cutOffV);
  });

  test("thresholds of one chemistry stand out on the other", () => {
    expect(CHEMISTRIES["li-ion"].usualV.warn.to).toBeLessThan(3.5);
    expect(CHEMISTRIES.lipo.usualV.land.from).toBeGreaterThan(2.9);
  });
});

describe("volts, charge and current", () => {
  // A cell maker's pack sheet: 4s2p of 3.6 V 2400 mAh cells is 14.4 V and 4800 mAh (read).
  test("4s2p of 3.6 V 2400 mAh", () => expect([packV(3.6, 4), parallelMah(2400, 2)]).toEqual([14.4, 4800]));

  // The same: two cells have a limit of 8.4 V (read).
  test("2S has a limit of 8.4 V", () => expect(packV(CHEMISTRIES.lipo.chargeLimitV, 2)).toBe(8.4));

  // Flying-club article: no more than about 80 %; 2600 mAh gives 2080 mAh (read).
  test("80 % of 2600 mAh is 2080 mAh", () => expect(sharedMah(2600, USUAL_SHARE)).toBe(2080));

  // EN 61434: I = C × capacity / 1 h; 5 Ah at 2C is 10 A (quoted).
  test("5 Ah at 2C is 10 A", () => {
    expect(ratedCurrentA(5000, 2)).toBe(10);
    expect(ratingC(10, 5000)).toBe(2);
  });

  // Computed: 680 mAh are 2448 C, and 2448 C at 12 A last 204 s.
  test("850 mAh at 80 % is 680 mAh: 3 min 24 s at 12 A", () => {
    expect(sharedMah(850, 0.8)).toBe(680);
    expect(flightS(680, 12)).toBeCloseTo(3 * 60 + 24, 9);
  });

  // SI brochure, 9th edition, tables 4 and 8 (memory): 1 C = 1 A s and 1 h = 3600 s, so 1 Ah is 3600 C.
  test("an ampere hour lasts 3600 s at one ampere", () => {
    expect(flightS(1000, 1)).toBe(3600);
  });

  // 49 CFR 171.8, "Watt-hour" (read): the rating of a lithium ion battery is its rated capacity in ampere-hours by its nominal voltage.
  // TSA: up to 100 Wh in carry-on baggage (read). A 6S 1100 mAh pack is far below, six of 3.7 V at 4500 mAh just at it.
  test("watt hours are ampere hours times nominal volts", () => {
    expect(energyWh(1100, packV(3.7, 6))).toBeCloseTo(24.42, 9);
    expect(energyWh(4500, packV(3.7, 6))).toBeCloseTo(99.9, 9);
  });

  // Computed (Ohm's law): 40 A through four cells of 5 mohm takes 0.8 V off the pack.
  test("sag inside the pack", () => {
    expect(sagV(40, 5, 4, 1)).toBeCloseTo(0.8, 12);
    expect(sagV(40, 5, 4, 2)).toBeCloseTo(0.4, 12);
  });

  test("volts and cells turn round", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 1000, noNaN: true }), fc.integer({ min: 1, max: 14 }), (volts, cells) => {
        expect(cellV(packV(volts, cells), cells)).toBeCloseTo(volts, 9);
      }),
    );
  });
});

describe("cell counts that one reading allows", () => {
  // Computed: 21 V is five full cells of 4.2 V and six of 3.5 V.
  test("21 V can be five full cells or six that should land", () => expect(fittingCells(21, 3.3, 4.2)).toEqual([5, 6]));
  test("a fresh 2S is nothing else", () => expect(fittingCells(8.4, 3.3, 4.2)).toEqual([2]));

  // Computed: with cells from 3.3 to 4.2 V, four cells end at 16.8 V and five begin at 16.5 V; three end at 12.6 V, four begin at 13.2 V.
  test("from four cells on, the next count can be mistaken for it", () => {
    expect(ambiguousCells(3.3, 4.2, 6)).toEqual({ fewer: 4, more: 5, fromV: 16.5, toV: 16.8 });
    expect(ambiguousCells(3.3, 4.2, 4)).toBeNull();
  });

  test("both counts of a mistake fit every reading of its span", () => {
    const volts = {
      empty: fc.double({ min: 2.5, max: 3.6, noNaN: true }),
      full: fc.double({ min: 4, max: 4.4, noNaN: true }),
    };
    let mistakes = 0;
    fc.assert(
      fc.property(volts.empty, volts.full, fc.double({ min: 0, max: 1, noNaN: true }), (empty, full, at) => {
        const found = ambiguousCells(empty, full, 14);
        if (!found) return;
        mistakes++;
        const reading = found.fromV + (found.toV - found.fromV) * at;
        expect(fittingCells(reading, empty, full)).toEqual(expect.arrayContaining([found.fewer, found.more]));
      }),
    );
    expect(mistakes).toBeGreaterThan(50);
  });
});

describe("what a craft says", () => {
  const TANKARD = `pack
  chemistry         lipo
  cells             6
  capacity          1.1 Ah
  full-at           4.2 V/cell
  warn-at           3.5 V/cell
  land-at           3.3 V/cell
  warn-after        80 %
  discharge-rating  100 C
  hover-current     6.5 A

pack "Tired"
  capacity   1000 mAh
  reserve    30 %
  full-current 90 A`;

  test("a pack's figures, in the units of their names", () => {
    const [pack] = packsOf(...craftWith(TANKARD));
    expect(pack).toMatchObject({
      section: "pack",
      chemistry: "lipo",
      cells: 6,
      cellsDetected: false,
      strings: 1,
      capacityMah: 1100,
      usableMah: 880,
      warnAfterMah: 880,
      ratedA: 110,
      fullA: null,
      fullS: null,
    });
    expect([pack!.fullV, pack!.warnV, pack!.landV]).toEqual([25.2, 21, 19.8]);
    expect(pack!.hoverS).toBeCloseTo((0.88 * 3600) / 6.5, 9);
  });

  test("a named pack lies over the plain one, and a share follows its own capacity", () => {
    const tired = packsOf(...craftWith(TANKARD))[1]!;
    expect(tired).toMatchObject({ section: "pack/Tired", cells: 6, usableMah: 700, warnAfterMah: 800, ratedA: 100 });
    expect(tired.fullS).toBeCloseTo((0.7 * 3600) / 90, 9);
    expect(packOf(...craftWith(TANKARD), "pack/Tired")).toEqual(tired);
  });

  test("after any edits, the figures equal those computed anew", () => {
    const line = fc.constantFrom(
      "capacity 1000 mAh",
      "capacity 1300 mAh",
      "capacity 1000 V",
      "cells 4",
      "cells detect",
      "reserve 20 %",
      "warn-after 700 mAh",
      "chemistry li-ion",
      "full-at 4.1 V/cell",
    );
    const packs = fc.array(fc.tuple(fc.constantFrom("pack", 'pack "A"', 'pack "B"'), fc.array(line, { maxLength: 3 })));
    const held = fc.property(packs, (said) => {
      const text = said.map(([head, lines]) => [head, ...lines.map((each) => `  ${each}`)].join("\n")).join("\n\n");
      const [craft, catalogue] = craftWith(text);
      for (const pack of packsOf(craft, catalogue)) expect(pack).toEqual(packOf(craft, catalogue, pack.section));
    });
    fc.assert(held, { numRuns: 500 });
  });

  test("what is not set is null, and so is the value of a faulty line", () => {
    const nothing = packOf(...craftWith("pack\n  cells detect"));
    expect(nothing).toMatchObject({ cells: null, cellsDetected: true, fullV: null, usableMah: null, chemistry: null });
    const faulty = packOf(...craftWith('pack\n  capacity 1000 mAh\n\npack "B"\n  capacity 1000 V'), "pack/B");
    expect(faulty.capacityMah).toBeNull();
  });

  test("a reserve as charge; one above the capacity leaves nothing", () => {
    expect(packOf(...craftWith("pack\n  capacity 500 mAh\n  reserve 150 mAh")).usableMah).toBe(350);
    expect(packOf(...craftWith("pack\n  capacity 500 mAh\n  reserve 600 mAh")).usableMah).toBe(0);
  });

  test("the answer is kept for as long as the craft lives", () => {
    const [craft, catalogue] = craftWith(TANKARD);
    expect(packsOf(craft, catalogue)).toBe(packsOf(craft, catalogue));
  });
});
