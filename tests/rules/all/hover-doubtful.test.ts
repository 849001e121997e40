/** The hover against mass, propellers, motors and pack: slips are told, craft of all sizes that fly are not. */
import { describe, expect, test } from "vitest";
import { reported } from "../check.ts";

/** “frame: motors 4; mass 640 g | pack: cells 6” as the lines of a script. */
function lines(text: string): string[] {
  return text.split(" | ").flatMap((part) => {
    const [title = "", entries = ""] = part.split(": ");
    return [title, ...entries.split("; ").map((entry) => `  ${entry}`)];
  });
}

/** MASS PROPELLER MOTORS PACK THROTTLE CURRENT; “-” for what is not said. */
function craft(text: string): string {
  const [mass, diameter, pitch, blades, motors, kv, chemistry, cells, throttle, current] = text.trim().split(/\s+/);
  const said = (name: string, value: string | undefined, unit = "") =>
    value === "-" || value === undefined ? [] : [`${name} ${value}${unit}`];
  return [
    `frame: ${[
      ...said("motors", motors),
      ...said("propeller-diameter", diameter, " in"),
      ...said("propeller-pitch", pitch, " in"),
      ...said("propeller-blades", blades),
      ...said("mass", mass, " g"),
      ...said("hover-throttle", throttle, " %"),
    ].join("; ")}`,
    `pack: ${[...said("chemistry", chemistry), ...said("cells", cells), ...said("hover-current", current, " A")].join("; ")}`,
    ...(kv === "-" ? [] : [`motors: kv ${kv} rpm/V`]),
  ].join(" | ");
}

function found(text: string): string[] {
  for (const misread of ["syntax", "unknown-name", "wrong-type", "missing-unit"])
    expect(reported(misread, lines(text))).toEqual([]);
  return reported("hover-doubtful", lines(text));
}

// Mass g, diameter in, pitch in, blades, motors, kv, chemistry, cells, hover %, hover A. Values: common practice, no source.
const SOUND = `
 26 1.6 1.0 3 4 19500 lihv  1 48 3.2
 33 1.6 1.2 4 4 14000 lihv  1 55 -
 48 2.0 1.2 3 4 11500 lipo  2 26 2.4
 64 2.0 1.4 4 4  8500 lihv  2 25 2.0
 75 2.5 1.8 3 4  7500 lipo  2 32 2.6
118 3.0 1.8 3 4  6900 lipo  2 21 2.4
185 3.0 2.2 3 4  4600 lipo  4 20 2.5
247 3.5 2.5 3 4  2800 lipo  6 19 2.6
247 4.0 2.2 2 4  4500 li-ion 2 32 4.2
310 4.0 2.8 3 4  2400 lipo  6 22 3.2
465 5.1 3.6 3 4  2050 lipo  6 16 4.5
580 5.0 4.3 3 4  2450 lipo  4 26 8.0
640 5.1 3.6 3 4  1750 lipo  6 24 6.5
720 5.1 4.1 3 4  1850 lipo  6 22 9.0
740 6.0 3.0 3 4  1900 lipo  4 35 10
1180 7.0 4.0 3 4 1300 li-ion 6 31 8.0
1260 7.0 3.5 2 4 1250 li-ion 6 36 8.5
1500 8.0 4.5 3 4  920 lipo  6 34 11
2350 10  5.0 3 4  900 lipo  6 32 15
2900 10  5.0 2 4  900 li-ion 6 42 22
3300 10  4.5 3 6  750 lipo  6 34 22
4200 10  4.7 2 8  700 lipo  6 34 26
 690 6.0 4.0 3 4 1700 lipo  6 20 7.5
 700 6.0 3.0 2 3 2000 lipo  4 42 9.0
`;

// The same, with one slip in each: the figure that was meant stands behind it.
const FAULTY = `
  64 5.1 3.6 3 4  1750 lipo  6 24 6.5   mass 640 g
6400 5.1 3.6 3 4  1750 lipo  6 24 6.5   mass 640 g
 640 5.1 3.6 3 4 17500 lipo  6 24 -     kv 1750
 640 5.1 3.6 3 4   175 lipo  6 24 -     kv 1750
 640 5.1 3.6 3 4  1750 lipo  1 24 6.5   cells 6
 640 5.1 3.6 3 4  1750 lipo  6 70 6.5   hover 24 %
 640 5.1 3.6 3 4  1750 lipo  6 24 65    hover 6.5 A
 640 5.1 3.6 3 4  1750 lipo  6 24 0.65  hover 6.5 A
 640 2.1 1.6 3 4  1750 lipo  6 24 6.5   propeller 5.1 in
1180 7.0 4.0 3 4  1300 li-ion 6 80 8.0   hover 31 %
  26 1.6 1.0 3 4  1950 lihv  1 48 3.2   kv 19500
 260 1.6 1.0 3 4 19500 lihv  1 48 3.2   mass 26 g
`;

const rows = (table: string) => table.trim().split("\n");

describe("hover-doubtful", () => {
  test.each(rows(SOUND))("silent about %s", (row) => {
    expect(found(craft(row))).toEqual([]);
  });

  test.each(rows(FAULTY))("one finding about %s", (row) => {
    expect(found(craft(row))).toHaveLength(1);
  });

  test("it says both figures where both are far, what is to be expected, and from what", () => {
    expect(found(craft("64 5.1 3.6 3 4 1750 lipo 6 24 6.5"))).toEqual([
      "hint hover-current 6.5 A: The craft is said to hover at 24 % of the throttle, where 7 to 10 % is to be expected, and at 6.5 A, where 0.1 to 0.6 A is to be expected: so says a rough estimate from 64 g, 4 propellers of 5.1 in with a pitch of 3.6 in, 1750 rpm/V, 22.2 V. One of these figures is likely to be a slip; look at mass, kv, cells and propeller first.",
    ]);
  });

  const FAR = craft("64 5.1 3.6 3 4 1750 lipo 6 24 6.5");
  test.each([
    ["rings round the propellers", FAR.replace("mass", "ducts yes; mass")],
    ["motors above one another", FAR.replace("mass", "arm-layout stacked; mass")],
    [
      "a throttle that rests in its middle",
      `${FAR.replace("; hover-current 6.5 A", "")}; reverse-band 1480 us to 1520 us`,
    ],
    ["no mass", FAR.replace("mass 64 g; ", "")],
    ["no pitch", FAR.replace("propeller-pitch 3.6 in; ", "")],
    ["no cells", FAR.replace("; cells 6", "")],
    ["a pitch that no propeller has", FAR.replace("pitch 3.6", "pitch 9.6")],
    ["nothing said of the hover", FAR.replace("; hover-throttle 24 %", "").replace("; hover-current 6.5 A", "")],
    ["accepted", FAR.replace("hover-throttle", "# allow hover-doubtful: weighed twice; hover-throttle")],
  ])("silent with %s", (_what, text) => {
    expect(found(text)).toEqual([]);
  });

  test("a named pack is judged by its own cells and its own hover", () => {
    const sound = craft("640 5.1 3.6 3 4 1750 lipo 6 24 6.5");
    expect(found(`${sound} | pack "Four": cells 4; hover-throttle 36 %; hover-current 9.5 A`)).toEqual([]);
    expect(found(`${sound} | pack "Four": cells 4`)).toEqual([]);
    expect(found(`${sound} | pack "Four": cells 4; hover-throttle 12 %`)).toHaveLength(1);
  });
});
