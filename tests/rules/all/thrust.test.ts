/** Idle, limits and curves against the hover, and what a craft does that comes down or flies home by itself. */
import { describe, expect, test } from "vitest";
import { reported } from "../check.ts";

/** “pack "Six": cells 6; pack-mass 1 g | frame: motors 4” as the lines of a script. */
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

const HOVER = "frame: hover-throttle 30 %";

describe("thrust-odd", () => {
  test.each([
    "motors: idle 6 % | frame: hover-throttle 8 %",
    "motors: idle 6 %",
    `${HOVER} | motors: idle 29 %; limit 31 %; motor1 limit 31 %`,
    `${HOVER} | rates: throttle-limit 31 %; throttle-curve 0, 10, 100 %`,
    `${HOVER} | rates: throttle-curve 0, 20, 20, 60, 100 %`,
    `${HOVER} | rates-second: throttle-limit 50 %`,
    `${HOVER} | adjust: throttle-limit follows KN from 40 % to 100 %`,
    // A limit says nothing where the hover is not said.
    "rates: throttle-limit 1 %",
    "motors: limit 1 %; motor1 limit 1 %",
    // The throttle rests in its middle: its lower end is thrust the other way.
    "motors: reversible yes; reverse-band 1480 us to 1520 us | rates: throttle-curve 100, 0, 100 %",
    "motors: reverse-band 1480 us to 1520 us | frame: hover-throttle 62 % | rates: throttle-limit 60 %",
    "safety: arm-throttle middle | frame: hover-throttle 62 % | rates: throttle-limit 60 %; throttle-curve 50, 100, 60 %",
    // Each pack by its own figure, where it has one.
    `${HOVER} | pack: hover-throttle 20 % | rates: throttle-limit 25 %`,
    `${HOVER} | pack "Light": hover-throttle 22 % | motors: idle 21 % | rates: throttle-limit 35 %`,
  ])("nothing: %s", (text) => expect(found("thrust-odd", text)).toEqual([]));

  test.each([
    [`${HOVER} | motors: idle 30 %`, "idle 30 %", "hovers with 30 % of its throttle: it lifts off as it arms"],
    [
      `${HOVER} | pack "Light": hover-throttle 20 % | motors: idle 20 %`,
      "idle 20 %",
      "hovers with 20 % of its throttle on pack “Light”",
    ],
    [
      `${HOVER} | pack "Long": hover-throttle 40 % | rates: throttle-limit 35 %`,
      "throttle-limit 35 %",
      "hovers with 40 % of its throttle on pack “Long”",
    ],
    ['pack "Long": hover-throttle 40 % | rates: throttle-limit 35 %', "throttle-limit 35 %", "on pack “Long”"],
    ["safety: arm-throttle low | rates: throttle-curve 5, 100 %", "throttle-curve 5, 100 %", "begins at 5 %"],
    ["frame: hover-throttle 1100 us | motors: idle 10 %", "idle 10 %", "hovers with 10 %"],
    [
      `${HOVER} | rates: throttle-limit 30 %`,
      "throttle-limit 30 %",
      "With throttle-limit of 30 % the craft does not stay up",
    ],
    [`${HOVER} | rates: throttle-limit-by cut-off; throttle-limit 20 %`, "throttle-limit 20 %", "of 20 %"],
    [`${HOVER} | rates-second: throttle-limit 20 %`, "throttle-limit 20 %", "of 20 %"],
    [`${HOVER} | motors: limit 25 %`, "limit 25 %", "With limit of 25 %"],
    [
      `${HOVER} | motors: motor2 place front-left limit 25 %`,
      "motor2 place front-left limit 25 %",
      "the limit of motor2 of 25 %",
    ],
    [
      `${HOVER} | adjust: throttle-limit follows KN from 20 % to 100 %`,
      "throttle-limit follows KN from 20 % to 100 %",
      "throttle-limit at one end of KN of 20 %",
    ],
    [
      `${HOVER} | adjust: throttle-limit follows KN from 100 % to 20 %`,
      "throttle-limit follows KN from 100 % to 20 %",
      "of 20 %",
    ],
    ["rates: throttle-curve 5, 50, 100 %", "throttle-curve 5, 50, 100 %", "begins at 5 %"],
    ["rates: throttle-curve 0, 60, 40, 100 %", "throttle-curve 0, 60, 40, 100 %", "falls from 60 % to 40 %"],
    ["rates-second: throttle-curve 0, 60, 40 %", "throttle-curve 0, 60, 40 %", "falls from 60 % to 40 %"],
    [`${HOVER} | rates: throttle-curve 0, 10, 30 %`, "throttle-curve 0, 10, 30 %", "goes no higher than 30 %"],
    ["motors: reverse-band 1480 us to 1520 us; idle 20 % | frame: hover-throttle 20 %", "idle 20 %", "lifts off"],
  ])("%s", (text, line, words) => {
    const reports = found("thrust-odd", text);
    expect(reports).toHaveLength(1);
    expect(reports[0]).toContain(`error ${line}: `);
    expect(reports[0]).toContain(words);
  });

  test("a curve that both begins above zero and falls has two faults, and more falls are one", () => {
    expect(found("thrust-odd", "rates: throttle-curve 10, 5, 40, 30, 100 %")).toHaveLength(2);
  });
});

describe("descend-blind", () => {
  const DESCEND = "failsafe: then descend; descend-throttle";

  test.each([
    `${HOVER} | ${DESCEND} 29 %`,
    // The descent is nowhere asked for.
    `${HOVER} | failsafe: then stop; descend-throttle 40 %`,
    `${HOVER} | failsafe: then return; then-without-fix stop; descend-throttle 40 %`,
    `${HOVER} | failsafe: then return; descend-throttle 40 %`,
    `${HOVER} | failsafe: then stop; then-without-fix descend; descend-throttle 40 %`,
    // Another pack that hovers with more, or with as good as the same.
    `${HOVER} | ${DESCEND} 25 % | pack: cells 6 | pack "Four": cells 4`,
    `${HOVER} | ${DESCEND} 21 % | pack: cells 4 | pack "Six": cells 6; capacity 900 mAh`,
    `${HOVER} | ${DESCEND} 25 % | pack "Six": cells 6`,
    // What a pack says itself goes before what could be worked out, and the usual pack's own before the frame's.
    `${HOVER} | ${DESCEND} 25 % | pack: cells 4 | pack "Six": cells 6; hover-throttle 26 %`,
    `${HOVER} | ${DESCEND} 31 % | pack: hover-throttle 35 %`,
    // Time enough at 3 m/s, or none that ends.
    "navigation: return-height 60 m | failsafe: then return; then-without-fix descend; descend-for 20 s",
    "navigation: return-height 60 m | failsafe: then descend; descend-for 0 s",
    "navigation: return-height 60 m | failsafe: then return; then-without-fix stop; descend-for 5 s",
    "failsafe: then descend; descend-for 5 s",
  ])("nothing: %s", (text) => expect(found("descend-blind", text)).toEqual([]));

  test.each([
    [`${HOVER} | ${DESCEND} 30 %`, "hovers with 30 % of its throttle: with 30 % it does not come down"],
    [`${HOVER} | failsafe: then return; then-without-fix descend; descend-throttle 35 %`, "with 35 %"],
    [`${HOVER} | failsafe: then stop; pack-empty-then descend; descend-throttle 35 %`, "with 35 %"],
    [
      `${HOVER} | failsafe: then stop; pack-empty-then return; then-without-fix descend; descend-throttle 35 %`,
      "with 35 %",
    ],
    [
      `${HOVER} | failsafe: then stop; then-without-fix descend; descend-throttle 35 % | modes: return-home when TR is down`,
      "with 35 %",
    ],
    [
      `${HOVER} | navigation: fence-distance 300 m; fence-does return-home | failsafe: then stop; then-without-fix descend; descend-throttle 35 %`,
      "with 35 %",
    ],
    [`${HOVER} | failsafe: descend-throttle 35 %`, "with 35 %"],
    [
      `${HOVER} | ${DESCEND} 25 % | pack "Light": hover-throttle 24 %`,
      "hovers with 24 % of its throttle on pack “Light”: with 25 %",
    ],
    [
      `${HOVER} | ${DESCEND} 25 % | pack "Light": hover-throttle 24 % | pack "Tiny": hover-throttle 20 %`,
      "with 20 % of its throttle on pack “Tiny”",
    ],
    // A pack of more cells, and a lighter one: by the square root of mass over volts.
    [`${HOVER} | ${DESCEND} 25 % | pack: cells 4 | pack "Six": cells 6`, "about 20 % of its throttle on pack “Six”"],
    [
      `${HOVER} | ${DESCEND} 25 % | frame: mass 800 g; mass-dry 300 g | pack "Light": pack-mass 150 g`,
      "about 23 % of its throttle on pack “Light”",
    ],
    [
      `${HOVER} | ${DESCEND} 25 % | frame: mass 800 g | pack: pack-mass 500 g | pack "Light": pack-mass 150 g`,
      "about 23 %",
    ],
    [
      "navigation: return-height 60 m | failsafe: then descend; descend-for 19 s",
      "needs 20 s to come down: after 19 s it drops the rest",
    ],
    ["navigation: return-height 40 m | failsafe: then return; then-without-fix descend; descend-for 5 s", "needs 13 s"],
  ])("%s", (text, words) => {
    const reports = found("descend-blind", text);
    expect(reports).toHaveLength(1);
    expect(reports[0]).toMatch(/^warning descend-/);
    expect(reports[0]).toContain(words);
  });
});

test("failsafe-holds-arm: a descent in place of a return has to end as well", () => {
  const descent = "descend-throttle 20 %; descend-for 0 s";
  expect(found("failsafe-holds-arm", `failsafe: then return; then-without-fix descend; ${descent}`)).toHaveLength(1);
  expect(found("failsafe-holds-arm", `failsafe: then return; then-without-fix stop; ${descent}`)).toEqual([]);
});

describe("return-unready", () => {
  const WAYS = [
    "failsafe: then return",
    "failsafe: then stop; pack-empty-then return",
    "navigation: fence-distance 300 m; fence-does return-home",
    "modes: return-home when TR is down",
  ];

  test.each(WAYS)("by %s: too low, without a fix, or with motors that stop in the air", (way) => {
    const all = (text: string) => found("return-unready", `${way} | ${text}`).map((each) => each.split(": ")[0]);
    expect(all("navigation: return-height 19 m")).toEqual(["warning return-height 19 m"]);
    expect(all("navigation: return-height 20 m")).toEqual([]);
    expect(all("navigation: return-height 15 m; obstacle-height 8 m")).toEqual([]);
    expect(all("navigation: return-height 30 m; obstacle-height 30 m")).toEqual(["warning return-height 30 m"]);
    expect(all("safety: arm-needs-fix no")).toEqual(["warning arm-needs-fix no"]);
    expect(all("safety: arm-needs-fix yes")).toEqual([]);
    expect(all("navigation: arrival stop")).toEqual(["warning arrival stop"]);
    expect(all("navigation: arrival land")).toEqual([]);
    expect(all("navigation: arrival wait")).toEqual([]);
    expect(all("frame: motors 4")).toEqual([]);
  });

  test.each([
    "failsafe: then stop",
    "failsafe: then descend",
    "navigation: fence-distance none; fence-does return-home",
    "navigation: fence-distance 300 m; fence-does warn",
    "navigation: fence-does return-home",
  ])("silent where the craft does not fly home: %s", (way) => {
    const text = `${way} | navigation: return-height 5 m; arrival stop | safety: arm-needs-fix no`;
    expect(found("return-unready", text)).toEqual([]);
  });
});
