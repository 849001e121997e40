/** Craft rules: where their findings stand, and that they are exact. */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { check, codesOf, WHEEL, workspaceOf } from "../check.ts";

const modes = (...lines: string[]) =>
  codesOf(`craft "Jug"\nuse "wheel.fettle"\nmodes\n${lines.map((line) => `  ${line}\n`).join("")}`);

describe("the place of a craft's finding", () => {
  test("on its line in the craft, else on the use line that brought it in, with the line itself related", () => {
    const [first] = check(`
      craft "Jug"
      use "wheel.fettle"
      use "habits.fettle"
          ^^^^^^^^^^^^^^^ condition-never
      modes
        arm when TL is down
        level when TR is up and TR is mid
              ^^^^^^^^^^^^^^^^^^^^^^^^^^^ condition-never
      === habits.fettle
      layer "Habits"
      use "more.fettle"
      === more.fettle
      layer "More"
      modes
        finder when TL is up and TL is down
    `);
    expect(first!.related).toMatchObject([
      { file: "more.fettle", range: { start: { line: 2, character: 9 }, end: { line: 2, character: 37 } } },
    ]);
  });

  test("a craft rule says nothing of a layer or a handset alone", () => {
    check(`
      layer "Habits"
      modes
        level when ZZ is nowhere or finder
    `);
  });

  test("arm-missing stands on the last heading of modes, or on the use of the layer", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      modes
      ^^^^^ arm-missing
        level when TR is up
    `);
    check(`
      craft "Jug"
      use "wheel.fettle"
      use "habits.fettle"
          ^^^^^^^^^^^^^^^ arm-missing
      === habits.fettle
      layer "Habits"
      modes
        level when TR is up
    `);
    check('craft "Jug"\npack\n  cells 4');
  });
});

describe("names of controls and positions", () => {
  test("are looked up in the craft, and offered", () => {
    const [, position] = check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TK is down
                 ^^ unknown-name
        level when TR is middle and not KN is up
                         ^^^^^^ unknown-name
                                              ^^ wrong-type
    `);
    expect(position!.fixes[0]!.edits[0]!.text).toBe("mid");
  });

  test("also of what a layer restates", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      use "habits.fettle"
      modes
        arm when TL is down
                       ^^^^ unknown-name
        level when TL is low
      === habits.fettle
      layer "Habits"
      controls
        TL switch ch5 low 1000 us high 2000 us
    `);
  });

  test("a setting follows a dial, and one that there is", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      adjust
        overall follows TR from 0.5 to 1
                        ^^ wrong-type
        level-stiffness follows KM from 2 to 6
                                ^^ unknown-name
    `);
  });

  test("a faulty control is no unknown name", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      controls
        TL switch ch5 up 1000 us
           ^^^^^^^^^^^^^^^^^^^^^ wrong-type
      modes
        arm when TL is down
    `);
  });

  test("a handset that cannot be found is one finding, not one for each control", () => {
    check(`
      craft "Jug"
      use "lost.fettle"
          ^^^^^^^^^^^^^ use-missing
      modes
        arm when TL is down
    `);
  });
});

describe("condition-never and condition-always are exact", () => {
  const never = (condition: string) =>
    modes("arm when TL is down", `level when ${condition}`).filter((code) => code.startsWith("condition-"));

  test.each([
    ["TR is up and TR is down", ["condition-never"]],
    ["not (TR is up or TR is mid or TR is down)", ["condition-never"]],
    ["TR is up or TR is mid or TR is down", ["condition-always"]],
    ["not (TL is up and TL is down)", ["condition-always"]],
    ["always", []],
    ["not always", ["condition-never"]],
    ["TL is up or always", ["condition-always"]],
    ["KN in 1000 us to 2000 us", ["condition-always"]],
    ["KN in 1000 us to 1999 us", []],
    ["KN below 2000 us or KN above 1999 us", ["condition-always"]],
    ["KN below 1500 us or KN above 1500 us", []],
    ["KN above 1500 us and KN below 1501 us", ["condition-never"]],
    ["KN above 1499 us and KN below 1501 us", []],
    ["KN above 2000 us", ["condition-never"]],
    ["KN below 1000 us", ["condition-never"]],
    ["KN above 999 us", ["condition-always"]],
    ["TR above 1400 us and TR below 1600 us", []],
    ["TR above 1500 us and TR below 2000 us", ["condition-never"]],
    ["ch6 in 1000 us to 2000 us", ["condition-always"]],
    ["ch6 above 1001 us and TR is up", ["condition-never"]],
    ["ch12 above 2000 us", ["condition-never"]],
    ["ch12 above 1999 us", []],
    ["ch12 in 1000 us to 2000 us", ["condition-always"]],
    ["arm and TL is up", ["condition-never"]],
    ["arm or TL is up", ["condition-always"]],
    ["finder", ["condition-never", "condition-unset"]],
    ["not finder", ["condition-always", "condition-unset"]],
    ["finder or TR is up", ["condition-unset"]],
    ["level", ["condition-cycle"]],
  ])("level when %s", (condition, codes) => expect(never(condition).sort()).toEqual(codes));

  test("undriven channels reach as far as the link's end points", () => {
    const text = (endpoints: string) =>
      `craft "Jug"\nuse "wheel.fettle"\nlink\n  endpoints ${endpoints}\nmodes\n  arm when TL is down\n  level when ch12 above 2005 us\n`;
    expect(codesOf(text("1000 us to 2000 us"))).toEqual(["condition-never"]);
    expect(codesOf(text("990 us to 2010 us"))).toEqual([]);
  });

  test("what is not known is not judged", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        level when TR is
                       ^ syntax
        finder when level and TL is up and TL is down
    `);
  });

  test("a circle is one finding, each of its lines related", () => {
    const [finding] = check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        level when finder
                   ^^^^^^ condition-cycle
        finder when TR is up or lights
        lights when level
    `);
    expect(finding!.related.map(({ range }) => range.start.line)).toEqual([5, 6]);
  });

  test("a circle through a layer stands on the craft's own line of it", () => {
    const [finding] = check(`
      craft "Jug"
      use "wheel.fettle"
      use "habits.fettle"
      modes
        arm when TL is down
        level when finder
                   ^^^^^^ condition-cycle
      === habits.fettle
      layer "Habits"
      modes
        finder when level
    `);
    expect(finding!.message).toBe("These conditions run in a circle: level → finder → level.");
    expect(finding!.related).toMatchObject([{ file: "habits.fettle", range: { start: { line: 2 } } }]);
  });
});

describe("controls that should not arm", () => {
  const arming = (...lines: string[]) =>
    findingsOf(
      workspaceOf({
        "wheel.fettle": WHEEL,
        "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\nmodes\n${lines.map((line) => `  ${line}\n`).join("")}`,
      }),
      "jug.fettle",
    )
      .filter(({ code }) => code === "arm-on-button" || code === "arm-on-dial")
      .map(({ code, range, message }) => [code, range.start.line, message.replace(/^[^,]*, /, "")]);

  test("the finding stands on the line that asks for the control", () => {
    expect(arming("arm when PB is held", "arm-permit when TR is up")).toEqual([
      ["arm-on-button", 3, "which springs back: the motors stop as soon as it is let go."],
    ]);
    expect(arming("arm when KN above 1500 us").map(([code, line]) => [code, line])).toEqual([["arm-on-dial", 3]]);
    expect(arming("arm when level and TL is down", "level when KN above 1500 us").map(([, line]) => line)).toEqual([3]);
  });

  test("a button or a dial may permit arming, unless arm itself asks for the permission", () => {
    expect(arming("arm when TL is down", "arm-permit when PB is held")).toEqual([]);
    expect(arming("arm when TL is down", "arm-permit when KN above 1500 us")).toEqual([]);
    expect(arming("arm when TL is down and arm-permit", "arm-permit when PB is held")).toHaveLength(1);
  });

  test("a control that does not change the result is not among them", () => {
    expect(arming("arm when TL is down and (KN above 1500 us or KN below 1501 us)")).toEqual([]);
    expect(arming("arm when TL is down and (PB is held or PB is rest)")).toEqual([]);
  });

  test("a note on any of the lines of arm accepts it", () => {
    expect(arming("# allow arm-on-button: two hands", "arm when TL is down", "arm when PB is held")).toEqual([]);
    expect(arming("arm when TL is down", "arm when PB is held # allow arm-on-button: two hands")).toEqual([]);
  });
});

describe("controls restated for one craft", () => {
  test("a channel that is then shared is a finding on the restating line", () => {
    const [finding] = check(`
      craft "Jug"
      use "wheel.fettle"
      controls
        TL switch ch6 up 1000 us down 2000 us
                  ^^^ channel-shared
      modes
        arm when TL is down
    `);
    expect(finding!.related).toMatchObject([{ file: "wheel.fettle", range: { start: { line: 3 } } }]);
  });

  /** The lever passes positions by their pulses; a handset may list them with the resting one first. */
  const listed = (positions: string, ...lines: string[]) =>
    findingsOf(
      workspaceOf({
        "wheel.fettle": WHEEL,
        "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\ncontrols\n  TR switch ch6 ${positions}\nmodes\n${lines
          .map((line) => `  ${line}\n`)
          .join("")}`,
      }),
      "jug.fettle",
    ).map(({ code }) => code);

  test.each([
    ["up 1000 us mid 1500 us down 2000 us", "mid", true],
    ["mid 1500 us up 1000 us down 2000 us", "mid", true],
    ["down 2000 us up 1000 us mid 1500 us", "mid", true],
    ["mid 1500 us down 2000 us up 1000 us", "down", false],
    ["up 1000 us down 2000 us mid 1500 us", "down", false],
  ])("with %s, armed at %s is in the middle: %s", (positions, armed, expected) =>
    expect(listed(positions, `arm when TR is ${armed}`).includes("arm-in-middle")).toBe(expected),
  );

  test("neighbours that do the same are neighbours by pulse", () => {
    const idle = (positions: string, ...level: string[]) => {
      const condition = level.map((at) => `TR is ${at}`).join(" or ");
      return listed(positions, "arm when TL is down", `level when ${condition}`).includes("control-idle");
    };
    expect(idle("mid 1500 us up 1000 us down 2000 us", "up", "down")).toBe(false);
    expect(idle("mid 1500 us up 1000 us down 2000 us", "mid", "down")).toBe(true);
    expect(idle("up 1000 us down 2000 us mid 1500 us", "up", "mid")).toBe(true);
  });

  test.each([
    // Spare positions, which no condition tells from their neighbours.
    ["level when TR is down", false],
    ["level when TR is mid", false],
    ["level when TR is not up", false],
    ["level when TR above 1700 us", false],
    ["level when ch6 below 1200 us", false],
    ["level when TR in 1400 us to 2100 us", false],
    // Told apart, and the same all the same.
    ["level when TR is mid or TR is down", true],
    ["level when TR is not up and (TR is mid or TR above 1700 us)", true],
    ["level when TR above 1200 us or TR above 1700 us", true],
    ["level when ch6 above 1200 us or ch6 in 1800 us to 2100 us", true],
    // What is so in every position has a finding of its own.
    ["level when TR is not up or TR is not mid", false],
  ])("%s: control-idle %s", (level, expected) =>
    expect(listed("up 1000 us mid 1500 us down 2000 us", "arm when TL is down", level).includes("control-idle")).toBe(
      expected,
    ),
  );
});

describe("arm-at-rest", () => {
  const rests = (...lines: string[]) => modes(...lines).includes("arm-at-rest");

  test.each([
    ["TL is up", true],
    ["TL is down", false],
    ["TL is not down", true],
    ["TL is up and KN above 1900 us", true],
    ["TL is up and KN above 2000 us", false],
    ["PB is rest and TR is up", true],
    ["PB is held", false],
    // A channel that nothing drives: only what is armed whatever it holds counts.
    ["TL is up and ch12 above 1500 us", false],
    ["TL is up and (ch12 above 1500 us or ch12 below 1501 us)", true],
    ["TL is up and (ch12 above 1500 us or KN above 1500 us)", true],
    ["always", true],
  ])("arm when %s: %s", (condition, expected) => expect(rests(`arm when ${condition}`)).toBe(expected));

  test("arm-permit must hold too, where it is set up", () => {
    expect(rests("arm when TL is up", "arm-permit when TR is down")).toBe(false);
    expect(rests("arm when TL is up", "arm-permit when TR is up")).toBe(true);
  });

  test("rests says where a control lies", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      controls
        TL switch ch5 up 1000 us down 2000 us rests down
      modes
        arm when TL is down
            ^^^^^^^^^^^^^^^ arm-at-rest
    `);
  });

  test("the dial that does it is named", () => {
    const [finding] = check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when KN above 1900 us
            ^^^^^^^^^^^^^^^^^^^^^ arm-at-rest
    `);
    expect(finding!.witness).toMatchObject({ TL: "up", PB: "rest" });
    expect(Number(finding!.witness!.KN)).toBeGreaterThan(1900);
    expect(finding!.message).toContain("KN at");
  });
});

describe("mode-clash", () => {
  test("names positions that do it, and the other line", () => {
    const [finding] = check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        lights-off when TR is mid or PB is held
                   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ mode-clash
        lights when TR is down and TL is down
    `);
    expect(finding!.message).toContain("TL down, TR down, PB held");
    expect(finding!.witness).toMatchObject({ TL: "down", TR: "down", PB: "held" });
    expect(finding!.related.map(({ range }) => range.start.line)).toEqual([5]);
  });

  test("is silent where the two can never be on together", () => {
    expect(modes("arm when TL is down", "video-low when TR is up", "video-high when TR is not up")).toEqual([]);
    expect(modes("arm when TL is down", "video-low when KN below 1500 us", "video-high when KN above 1499 us")).toEqual(
      [],
    );
  });

  test("arm and turtle do not exclude each other", () => {
    expect(modes("arm when TL is down", "turtle when TR is down").includes("mode-clash")).toBe(false);
  });
});
