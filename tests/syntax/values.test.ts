/** Values: each production of the grammar as a setting reads it, and what does not fit it. */
import { describe, expect, test } from "vitest";
import { printValue } from "../../shared/syntax/print-value.ts";
import type { Value } from "../../shared/syntax/value.ts";
import { check, workspaceOf } from "../rules/check.ts";

/** The value of the one entry of a section, in canonical spelling; null where it has a fault. */
function printed(section: string, entry: string): string | null {
  const value = readValue(section, entry);
  return value && printValue(value);
}

function readValue(section: string, entry: string): Value | null {
  const text = `craft "Jug"\n${section}\n  ${entry}\n`;
  return workspaceOf({ "jug.fettle": text }).script("jug.fettle")!.entries[0]!.value;
}

describe("pulses and channels", () => {
  test.each([
    ["KN dial ch9 0.0000001 us to 1.5 ms", "dial ch9 0.0000001 us to 1500 us"],
    ["KN dial ch9 -0.00000125 us to 2000 us", "dial ch9 -0.00000125 us to 2000 us"],
    ["KN dial ch9 0 us to 1234567890123456789012 us", "dial ch9 0 us to 1234567890123456800000 us"],
    ["TL switch ch5 up 0.0000001 us down 2 ms", "switch ch5  up 0.0000001 us  down 2000 us"],
  ])("%s is printed without an exponent", (entry, value) => {
    expect(printed("controls", entry)).toBe(value);
    expect(printed("controls", `${entry.split(" ")[0]} ${value}`)).toBe(value);
  });

  test.each(["above 0.0000001 us", "below 1000000000000000000000 us", "in 0.0000001 us to 0.0000002 us"])(
    "a condition on a pulse %s is printed as it is read",
    (bound) => expect(printed("modes", `arm when ch9 ${bound}`)).toBe(`ch9 ${bound}`),
  );

  test("a nought with a minus is nought", () => {
    expect(readValue("controls", "TL switch ch5 up -000 us down 2000 us")).toMatchObject({
      positions: [{ pulseUs: 0 }, { pulseUs: 2000 }],
    });
    expect(readValue("pack", "shunt-offset -0.0 mV")).toMatchObject({ number: 0, digits: "-0.0" });
  });

  test("a number that its unit makes too large is none, and neither is a channel of which digits would be lost", () => {
    expect(printed("controls", `KN dial ch9 0 us to ${"9".repeat(307)} ms`)).toBe(null);
    expect(printed("controls", "KN dial ch99999999999999999999999 1000 us to 2000 us")).toBe(null);
    expect(printed("modes", "arm when ch99999999999999999999999 above 1500 us")).toBe(null);
  });
});

describe("numbers with units", () => {
  test.each([
    ["capacity 850 mAh", "850 mAh"],
    ["capacity 850mAh", "850 mAh"],
    ["capacity 0.85   Ah", "0.85 Ah"],
    ["warn-at 3.5 V/cell", "3.5 V/cell"],
    ["warn-at 3.50V/cell", "3.50 V/cell"],
    ["reserve 20%", "20 %"],
    ["shunt-offset -2 mV", "-2 mV"],
  ])("pack %s", (entry, value) => expect(printed("pack", entry)).toBe(value));

  test("µ is read and us is written", () => {
    expect(printed("link", "deadband 5 \u00b5s")).toBe("5 us");
    expect(printed("link", "deadband 5\u03bcs")).toBe("5 us");
  });

  test.each([
    ["capacity 850", "         ^^^ missing-unit"],
    ["capacity 850 V", "             ^ wrong-unit"],
    ["capacity 850 mah", "             ^^^ unknown-name"],
    ["capacity 850mah", "            ^^^ unknown-name"],
    ["capacity 850mAh2", "            ^^^^ unknown-name"],
    ["capacity 850m_Ah", "            ^^^^ unknown-name"],
    ["capacity much", "         ^^^^ wrong-type"],
    ["capacity", "       ^ wrong-type"],
    ["capacity 850 mAh 900 mAh", "                 ^^^ syntax"],
    ["capacity .5 Ah", "         ^^ wrong-type"],
    ["full-at 4.2 V", "            ^ wrong-unit"],
    ["cells 4 V", "        ^ wrong-unit"],
    ["cells 4.5", "      ^^^ wrong-type"],
    ["cells four", "      ^^^^ unknown-name"],
    ["cells +4", "      ^^ wrong-type"],
    ["shunt-gain 20 %", "              ^ wrong-unit"],
  ])("pack %s", (entry, mark) => void check(`craft "Jug"\npack\n  ${entry}\n  ${mark}`));

  test("a missing unit is offered", () => {
    const [finding] = check(`
      craft "Jug"
      pack
        warn-at 3.5
                ^^^ missing-unit
    `);
    expect(finding!.fixes.map(({ edits }) => edits[0]!.text)).toEqual(["3.5 V/cell"]);
  });

  test("a number too large to compute with", () => {
    expect(printed("pack", `capacity ${"9".repeat(400)} mAh`)).toBeNull();
    expect(printed("pack", "cells 99999999999999999999")).toBeNull();
  });
});

describe("ranges", () => {
  test("the second number may lend its unit to the first", () => {
    expect(printed("link", "endpoints 1000 to 2000 us")).toBe("1000 us to 2000 us");
    expect(printed("link", "endpoints 1000us to 2ms")).toBe("1000 us to 2 ms");
  });

  test("the first lends nothing, and a range rises", () => {
    const [first, , , last] = check(`
      craft "Jug"
      bench
        roll 1000 us to 2000
                        ^^^^ missing-unit
        pitch 2000 to 1000 us
              ^^^^^^^^^^^^^^^ wrong-type
        yaw 2 ms to 1000 us
            ^^^^^^^^^^^^^^^ wrong-type
        throttle 1000 to 2000
                         ^^^^ missing-unit
    `);
    expect(first!.fixes[0]!.edits[0]!.text).toBe("2000 us");
    expect(last!.fixes[0]!.edits[0]!.text).toBe("2000 us");
  });

  test("a unit taken from the other end that does not fit is reported at its place", () => {
    check(
      `
      craft "Jug"
      bench
        roll 1000 to 2000 V
                          ^ wrong-unit
        pitch 1000 V to 2000 us
                   ^ wrong-unit
        yaw 1000 us
                  ^ wrong-type
    `,
    );
  });
});

describe("sizes and places", () => {
  test.each([
    ["grid 53 x 20", "53 x 20"],
    ["grid 53x20", "53 x 20"],
    ["grid pal", "pal"],
    ["sight at 3,18", "3, 18"],
    ["sight at left + 2 , bottom -1", "left+2, bottom-1"],
    ["sight at centre,middle", "centre, middle"],
    ["sight at centre-4, top+0", "centre-4, top"],
    ["sight at right-2, 0", "right-2, 0"],
  ])("osd %s", (entry, value) => expect(printed("osd", entry)).toBe(value));

  test("what does not fit", () => {
    check(`
      craft "Jug"
      osd
        grid 53
             ^^ wrong-type
      osd-second
        sight at top, left
                 ^^^ wrong-type
        amps at 3
                ^ wrong-type
        watts at 3, middle+
                          ^ wrong-type
        day at -1, 2
               ^^ wrong-type
        lap 3, 4
            ^ syntax
        clock at 3, 4, 5
                     ^ syntax
    `);
  });

  test("a grid beyond any there is", () => {
    check(`
      craft "Jug"
      osd
        grid 0 x 20
             ^^^^^^ out-of-range
      video
        viewer-grid 500 x 20
                    ^^^^^^^^ out-of-range
    `);
  });
});

describe("words, texts, dates, colours", () => {
  test.each([
    ["osd", "picture 16:9", "16:9"],
    ["frame", "ducts yes", "yes"],
    ["bench", "order-checked 2028-02-29", "2028-02-29"],
    ["lights", "colour rebeccapurple", "rebeccapurple"],
    ["lights", 'colour "#FF8800"', '"#ff8800"'],
    ["lights", "alert-colour none", "none"],
    ["lights", "wire-order green red blue", "green red blue"],
    ["safety", "arm-tilt-limit any", "any"],
    ["safety", "arm-tilt-limit 30 deg", "30 deg"],
    ["board", 'note "a # \\"b\\" \\\\ c"', '"a # \\"b\\" \\\\ c"'],
  ])("%s: %s", (section, entry, value) => expect(printed(section, entry)).toBe(value));

  test("what does not fit", () => {
    check(`
      craft "Jug"
      osd
        picture 16:10
                ^^^^^ unknown-name
      frame
        ducts perhaps
              ^^^^^^^ unknown-name
      bench
        order-checked 2026-02-29
                      ^^^^^^^^^^ wrong-type
        motors-checked yesterday
                       ^^^^^^^^^ wrong-type
      lights
        colour greeen
               ^^^^^^ unknown-name
        rear-colour "#ff88"
                    ^^^^^^^ wrong-type
        wire-order red red
                       ^^^ wrong-type
      board
        model Slip
              ^^^^ wrong-type
        note "open
             ^^^^^ syntax
    `);
  });
});

describe("lists, orders and fields", () => {
  test("a unit on the last serves those without one", () => {
    expect(printed("video", "power-steps 25, 200, 600 mW")).toBe("25 mW, 200 mW, 600 mW");
    expect(printed("video", "power-steps 25 mW, 0.2, 1 W")).toBe("25 mW, 0.2 W, 1 W");
  });

  test("what does not fit a list", () => {
    check(`
      craft "Jug"
      video
        power-steps 25, 200 mW, 600
                                ^^^ missing-unit
      filters
        motor-notch-depths 10, 20 V
                                  ^ wrong-unit
    `);
  });

  test("fields, each once", () => {
    expect(printed("gains", "roll p 0.9 i 0.8   d 0.4")).toBe("p 0.9  i 0.8  d 0.4");
    expect(printed("motors", "motor1 limit 80% direction clockwise")).not.toBe("");
    check(`
      craft "Jug"
      gains
        roll p 0.9 p 0.8
                   ^ wrong-type
        pitch p 0.9 q 0.8
                    ^ unknown-name
        yaw 0.9
            ^^^ wrong-type
      filters
        notch at 200 Hz
              ^^^^^^^^^ wrong-type
    `);
  });
});

describe("settings that follow a dial", () => {
  test("both ends are checked as that setting", () => {
    expect(printed("adjust", "level-stiffness follows KN from 2 to 6")).toBe("follows KN from 2 to 6");
    check(`
      craft "Jug"
      use "wheel.fettle"
      adjust
        overall follows KN from 1 to
                                   ^ wrong-type
        throttle-limit follows KN from 50 to 90 %
                                       ^^ missing-unit
        arm follows KN from 1 to 2
        ^^^ unknown-name
        yaw-with-roll follows dial from 1 % to 2 %
                              ^^^^ syntax
        cells follows KN from 1 to 2
        ^^^^^ unknown-name
        warn-at follows KN from 3.4 V/cell to 3.6 V/cell
        ^^^^^^^ unknown-name
        lost-after follows KN from 100 ms to 300 ms
        ^^^^^^^^^^ unknown-name
        descend-throttle follows KN from 10 % to 30 %
        ^^^^^^^^^^^^^^^^ unknown-name
        level-tilt follows KZ from 20 deg to 900 deg
                           ^^ unknown-name
                                             ^^^^^^^ out-of-range
    `);
  });
});
