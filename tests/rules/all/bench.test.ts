/** What was read and checked on the bench: meters that are off, packs that no count of cells fits, checks that are stale. */
import { describe, expect, test } from "vitest";
import { reported } from "../check.ts";

/** “pack: cells 6; chemistry lipo | bench: roll-checked …” as the lines of a script. */
function lines(text: string): string[] {
  return text.split(" | ").flatMap((part) => {
    const [title = "", entries = ""] = part.split(": ");
    return [title, ...entries.split("; ").map((entry) => `  ${entry}`)];
  });
}

/** What a rule finds, as `SEVERITY LINE: message`; fails where a line is not understood, as silence then says nothing. */
function found(code: string, text: string): string[] {
  for (const misread of ["syntax", "unknown-name", "wrong-type", "missing-unit"])
    expect(reported(misread, lines(text))).toEqual([]);
  return reported(code, lines(text));
}

describe("meter-off", () => {
  const DIVIDER = "pack: divider-top 10 kohm; divider-bottom 1 kohm";
  const volts = (read: string, shown: string) => `bench: pack-volts-read ${read} V; pack-volts-shown ${shown} V`;
  const charge = (back: number, counted: number) => `bench: charge-put-back ${back} mAh; charge-counted ${counted} mAh`;

  test.each([
    volts("20", "20.6"),
    volts("20", "19.4"),
    volts("16.42", "16.4"),
    "bench: pack-volts-read 16 V",
    "bench: pack-volts-shown 16 V",
    charge(1000, 1150),
    charge(1000, 850),
    "bench: charge-counted 500 mAh",
  ])("nothing: %s", (text) => expect(found("meter-off", text)).toEqual([]));

  test.each([
    [
      volts("20", "20.7"),
      "pack-volts-shown 20.7 V: The craft showed 20.7 V where the meter read 20 V, 3.5 % too high: its warnings come too late. Correct the scale",
    ],
    [volts("20", "19.3"), "3.5 % too low: its warnings come too early. Correct the scale"],
    [
      `${volts("20", "22")} | ${DIVIDER}`,
      "10 % too high: its warnings come too late. A divider-top of 9 kohm puts it right, then take both readings again.",
    ],
    [volts("20", "9.9"), "50.5 % too low: its warnings come too early. That is no matter of scale"],
    [
      charge(1000, 1151),
      "charge-counted 1151 mAh: The craft counted 1151 mAh where the charger put back 1000 mAh, 15.1 % too high: it warns by charge too early. Correct the scale",
    ],
    [charge(1000, 849), "15.1 % too low: it warns by charge too late."],
    [`${charge(1000, 1250)} | pack: shunt 4 mohm; shunt-gain 20`, "A shunt of 5 mohm puts it right"],
  ])("%s", (text, words) => {
    const reports = found("meter-off", text);
    expect(reports).toHaveLength(1);
    expect(reports[0]).toMatch(/^warning /);
    expect(reports[0]).toContain(words);
  });

  // Between cut-off and charge limit of the kind, 3 V and 4.2 V for lipo, with a hundredth for the meter.
  test.each([
    ["pack: cells 6; chemistry lipo", "25.4", true],
    ["pack: cells 6; chemistry lipo", "25.5", false],
    ["pack: cells 6; chemistry lipo", "17.9", true],
    ["pack: cells 6; chemistry lipo", "17.8", false],
    ["pack: cells 6; chemistry lihv", "26", true],
    ["pack: cells 6", "26.3", true],
    ["pack: cells 6", "26.4", false],
    ["pack: cells 4; chemistry lipo", "22.8", false],
    // Any of several packs may have been measured.
    ['pack: chemistry lipo | pack "Four": cells 4 | pack "Six": cells 6', "22.8", true],
    ['pack: chemistry lipo | pack "Four": cells 4 | pack "Six": cells 6', "18.9", true],
    ['pack: chemistry lipo | pack "Four": cells 4 | pack "Six": cells 6', "12.6", true],
    ['pack: chemistry lipo | pack "Three": cells 3 | pack "Six": cells 6', "14.8", false],
    // Where the board counts, every number may be meant; no number of cells has this.
    ["pack: cells detect; chemistry lipo", "22.8", true],
    ["pack: cells detect; chemistry lipo", "5", false],
    ["pack: chemistry lipo", "5", false],
    ["pack: chemistry lipo", "2.4", false],
    ["pack: chemistry lipo", "9.9", true],
    ["pack: capacity 850 mAh", "5", true],
  ])("%s, measured %s V: fits %s", (pack, read, fits) => {
    const reports = found("meter-off", `${pack} | bench: pack-volts-read ${read} V`);
    expect(reports).toHaveLength(fits ? 0 : 1);
    if (!fits) expect(reports[0]).toContain(`warning pack-volts-read ${read} V: The meter read ${read} V, and `);
  });

  test("the message says what such a pack may have", () => {
    expect(found("meter-off", "pack: cells 4; chemistry lipo | bench: pack-volts-read 22.8 V")[0]).toContain(
      "and a pack of 4 such cells has 12 V to 16.8 V. Look whether the count",
    );
  });
});

describe("stale-check", () => {
  const flashed = "board: flashed-on 2026-03-14";

  test("one finding at the day of flashing names every check that is older", () => {
    expect(
      found(
        "stale-check",
        `${flashed} | bench: order-checked 2026-03-13; motors-checked 2025-12-31; failsafe-checked 2026-03-14; mount-checked 2026-04-01`,
      ),
    ).toEqual([
      "hint flashed-on 2026-03-14: The board was flashed after the bench: order-checked and motors-checked are older, so make them anew. Propellers off.",
    ]);
  });

  test.each(["order", "direction", "motors", "mount", "failsafe", "hover", "finder"])("%s-checked", (check) => {
    expect(found("stale-check", `${flashed} | bench: ${check}-checked 2026-03-13`)).toHaveLength(1);
    expect(found("stale-check", `${flashed} | bench: ${check}-checked 2026-03-14`)).toEqual([]);
    expect(found("stale-check", `bench: ${check}-checked 2026-03-13`)).toEqual([]);
  });

  test("the scale and the link's reach do not hang on the software", () => {
    expect(found("stale-check", `${flashed} | bench: weighed-on 2026-01-01; range-checked 2026-01-01`)).toEqual([]);
  });
});

describe("failsafe-unsaid", () => {
  const ARMS = "modes: arm when TL is down";

  test.each([
    [ARMS, 1],
    [`${ARMS} | failsafe: hold-for 1 s`, 1],
    [`${ARMS} | link: on-loss silent`, 1],
    [`${ARMS} | link: on-loss preset`, 1],
    [`${ARMS} | link: on-loss preset; preset-channels 1500 us, 1500 us, 1000 us, 1500 us, 2000 us`, 1],
    [`${ARMS} | link: on-loss preset; preset-channels 1500 us, 1500 us, 1000 us, 1500 us, 1000 us`, 0],
    [`${ARMS} | link: on-loss hold`, 0],
    [`${ARMS} | failsafe: then stop`, 0],
    ["modes: level when TR is up", 0],
    ["frame: motors 4", 0],
  ])("%s: %d", (text, count) => {
    const reports = found("failsafe-unsaid", text);
    expect(reports).toHaveLength(count);
    for (const report of reports) expect(report).toMatch(/^hint (failsafe|craft "Jug"): /);
  });

  test("a line with a fault says something all the same", () => {
    expect(reported("failsafe-unsaid", lines(`${ARMS} | failsafe: then hover`))).toEqual([]);
  });

  test("what a layer says counts", () => {
    const layer = (text: string) => ({ "base.fettle": `layer "Base"\n${lines(text).join("\n")}\n` });
    const jug = ['use "base.fettle"', ...lines(ARMS)];
    expect(reported("failsafe-unsaid", jug, layer("failsafe: then stop"))).toEqual([]);
    expect(reported("failsafe-unsaid", jug, layer("failsafe: hold-for 1 s"))).toHaveLength(1);
  });
});
