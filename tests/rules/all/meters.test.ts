/** Rules on the meters that read a pack: where their converter reaches its maximum. */
import { describe, expect, test } from "vitest";
import { swapped } from "../../swapped.ts";
import { checkOnly } from "../check.ts";

describe("divider-clips", () => {
  const check = (marked: string) => checkOnly("divider-clips", marked);

  // A maker's table: 15 kohm over 10 kohm takes 9 V to 3.6 V.
  test("a pack that just reaches the reference is read", () => {
    const text = (cells: string, reference: string, mark = "") => `
      craft "Jug"
      pack
        cells ${cells}
        full-at 4.5 V/cell
        divider-top 15 kohm${mark}
        divider-bottom 10000 ohm
        adc-reference ${reference}
    `;
    check(text("2", "3.6 V"));
    const [found] = check(text("2", "3.58 V", "\n                    ^^^^^^^ divider-clips"));
    expect(found!.message).toContain("reads up to 8.95 V");
    expect(found!.message).toContain("the full pack has 9 V");
    check(text("3", "3600 mV", "\n                    ^^^^^^^ divider-clips"));
  });

  // The catalogue's default of the reference is 3.3 V; behind 10 over 1 kohm that is 36.3 V.
  test("the reference's default counts, and the chemistry's limit where full is not said", () => {
    const text = (cells: number, mark = "") => `
      craft "Jug"
      pack
        chemistry lipo
        cells ${cells}
        divider-top 10 kohm${mark}
        divider-bottom 1 kohm
    `;
    check(text(8));
    check(text(9, "\n                    ^^^^^^^ divider-clips"));
  });

  test("silent where volts come from elsewhere, where cells are counted by the board, and without a divider", () => {
    const text = (line: string, cells = "6") => `
      craft "Jug"
      pack
        cells ${cells}
        full-at 4.2 V/cell
        divider-top 10 kohm
        ${line}
    `;
    check(text("divider-bottom 2 kohm", "detect"));
    check(text("divider-bottom 2 kohm\n        volts-from esc-data"));
    check(text("adc-bits 12"));
  });

  test("a named pack with more cells is reported at them", () => {
    check(`
      craft "Jug"
      pack
        cells 3
        full-at 4.2 V/cell
        divider-top 10 kohm
        divider-bottom 2.5 kohm
      pack "Large"
        cells 4
              ^ divider-clips
    `);
  });
});

describe("shunt-clips", () => {
  const check = (marked: string) => checkOnly("shunt-clips", marked);
  const text = (amps: string, more = "", mark = "") => `
    craft "Jug"
    pack
      full-current ${amps}
      shunt 5 mohm
      shunt-gain 20${mark}
      adc-reference 2.0 V
      ${more}
  `;
  const mark = "\n                 ^^ shunt-clips";

  // A maker's table: 5 mohm, gain 20, 20 A gives 2.0 V.
  test("the current that gives the reference is read, and none above", () => {
    check(text("20 A"));
    const [found] = check(text("20.1 A", "", mark));
    expect(found!.message).toContain("reads up to 20 A (2 V at the pin, 5 mohm enlarged 20 times)");
  });

  test("what the sensor gives at rest takes its part", () => {
    check(text("15 A", "shunt-offset 500 mV"));
    check(text("15.1 A", "shunt-offset 500 mV", mark));
    check(text("25 A", "shunt-offset -500 mV"));
  });

  test("silent where current comes from elsewhere, or is not said", () => {
    check(text("90 A", "current-from esc-data"));
    check(text("90 A", "current-from none"));
    check(swapped(text("90 A"), "full-current 90 A", "capacity 900 mAh"));
  });
});
