/** Conditions and the controls of a handset: what they say, and what is wrong with them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Condition } from "../../shared/syntax/condition.ts";
import { printCondition, printValue } from "../../shared/syntax/print-value.ts";
import { check, workspaceOf } from "../rules/check.ts";

function conditionOf(text: string): Condition | null {
  const script = workspaceOf({ "jug.fettle": `craft "Jug"\nmodes\n  arm when ${text}\n` }).script("jug.fettle")!;
  const { value } = script.entries[0]!;
  return value?.kind === "condition" ? value.condition : null;
}

/** A condition with every bracket written out, so that what binds to what can be seen. */
function bracketed(condition: Condition): string {
  if (condition.kind === "or" || condition.kind === "and")
    return `(${condition.parts.map(bracketed).join(` ${condition.kind} `)})`;
  return condition.kind === "not" ? `not ${bracketed(condition.part)}` : printCondition(condition);
}

describe("what binds to what", () => {
  test.each([
    ["TL is up or TL is down and TR is mid", "(TL is up or (TL is down and TR is mid))"],
    ["TL is up and TL is down or TR is mid", "((TL is up and TL is down) or TR is mid)"],
    ["not TL is up and TR is mid", "(not TL is up and TR is mid)"],
    ["not (TL is up and TR is mid)", "not (TL is up and TR is mid)"],
    ["(TL is up or TR is mid) and level", "((TL is up or TR is mid) and level)"],
    ["not not level", "not not level"],
    ["level and turtle and recorder", "(level and turtle and recorder)"],
    ["((always))", "always"],
    ["TL is not up", "TL is not up"],
    ["KN in 1200 to 1700 us", "KN in 1200 us to 1700 us"],
    ["ch9 above 1.5 ms", "ch9 above 1500 us"],
    ["KN below 1700us", "KN below 1700 us"],
    ["(KN below 1700us)and(ch9 above 1500 us)", "(KN below 1700 us and ch9 above 1500 us)"],
  ])("%s", (text, expected) => expect(bracketed(conditionOf(text)!)).toBe(expected));

  test("a condition's canonical spelling says the same", () => {
    const leaf = fc.constantFrom(
      "TL is up",
      "TR is not mid",
      "level",
      "always",
      "KN above 1500 us",
      "ch9 in 1 us to 2 us",
    );
    const { condition } = fc.letrec<{ condition: string }>((tie) => ({
      condition: fc.oneof(
        { depthSize: "medium" },
        leaf,
        tie("condition").map((part) => `not (${part})`),
        fc.tuple(tie("condition"), tie("condition")).map(([a, b]) => `(${a}) and (${b})`),
        fc.tuple(tie("condition"), tie("condition")).map(([a, b]) => `(${a}) or (${b})`),
      ),
    }));
    fc.assert(
      fc.property(condition, (text) => {
        const read = conditionOf(text);
        fc.pre(read !== null);
        expect(flat(conditionOf(printCondition(read!))!)).toBe(flat(read!));
      }),
      { numRuns: 300 },
    );
  });

  test("sixty brackets are read, a million are a finding", () => {
    expect(conditionOf(`${"(".repeat(60)}always${")".repeat(60)}`)).not.toBeNull();
    expect(conditionOf(`${"(".repeat(1e6)}always${")".repeat(1e6)}`)).toBeNull();
  });
});

/** Spelling with the brackets of an `or` in an `or` left out, as those of an `and` in an `and`. */
function flat(condition: Condition): string {
  const parts = (kind: "or" | "and", each: Condition): string[] =>
    each.kind === kind ? each.parts.flatMap((part) => parts(kind, part)) : [flat(each)];
  if (condition.kind === "or" || condition.kind === "and")
    return `(${parts(condition.kind, condition).join(` ${condition.kind} `)})`;
  return condition.kind === "not" ? `not ${flat(condition.part)}` : printCondition(condition);
}

describe("what is wrong with a condition", () => {
  test.each([
    ["", "       ^ syntax"],
    ["TL", "          ^ syntax"],
    ["TL is", "             ^ syntax"],
    ["TL is and TR is mid", "               ^^^ syntax"],
    ["TL is up or", "                   ^ syntax"],
    ["TL is up or or TR is mid", "                     ^^ syntax"],
    ["or TL is up", "         ^^ syntax"],
    ["(TL is up", "                 ^ syntax"],
    ["TL is up)", "                 ^ syntax"],
    ["TL is up TR is mid", "                  ^^ syntax"],
    ["TL is up and TR is mid extra", "                                ^^^^^ syntax"],
    ["ch5 is up", "             ^^ syntax"],
    ["ch0 above 1500 us", "         ^^^ wrong-type"],
    ["KN above 1500", "                  ^^^^ missing-unit"],
    ["KN above 1500 V", "                       ^ wrong-unit"],
    ["KN in 1000 to 2000", "                       ^^^^ missing-unit"],
    ["KN in 1000 to 2000 V", "                            ^ wrong-unit"],
    ["KN in 2000 to 1000 us", "               ^^^^^^^^^^^^^^^ wrong-type"],
    ["nonsense", "         ^^^^^^^^ unknown-name"],
  ])(
    "arm when %s",
    (text, mark) =>
      void check(`craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when ${text}\n  ${mark}`.replace(" \n", "\n")),
  );

  test.each([
    ["TR is mid or down", "TR is mid or TR is down"],
    ["TL is up and TR is mid or down", "TL is up and TR is mid or TR is down"],
    ["TR is mid or down and TL is up", "TR is mid or TR is down and TL is up"],
    ["not TR is mid or up", "not TR is mid or TR is up"],
    ["level or TR is mid or up", "level or TR is mid or TR is up"],
  ])("a position alone after or: %s", (text, expected) => {
    const script = `craft "Jug"\nuse "wheel.fettle"\nmodes\n  level when ${text.startsWith("level") ? text.replace("level", "arm") : text}\n`;
    const workspace = workspaceOf({ "jug.fettle": script });
    const issues = workspace.script("jug.fettle")!.issues;
    expect(issues.map(({ code }) => code)).toEqual(["syntax"]);
    const edit = issues[0]!.fixes![0]!.edits[0]!;
    const line = script.split("\n")[3]!;
    const repaired = line.slice(0, edit.range.start.character) + edit.text + line.slice(edit.range.end.character);
    expect(repaired).toBe(`  level when ${expected.startsWith("level") ? expected.replace("level", "arm") : expected}`);
  });

  test.each([
    ["tl is up", "TL"],
    ["kn above 1500 us", "KN"],
  ])("a control in small letters is offered as it is written: %s", (text, control) => {
    const script = workspaceOf({ "jug.fettle": `craft "Jug"\nmodes\n  arm when ${text}\n` }).script("jug.fettle")!;
    expect(script.issues.map(({ code, message }) => [code, message])).toEqual([
      [
        "unknown-name",
        `There is no mode “${control.toLowerCase()}”, and a control begins with a capital letter. Did you mean “${control}”?`,
      ],
    ]);
    expect(script.issues[0]!.fixes!.map(({ edits }) => edits[0]!.text)).toEqual([control]);
  });

  test("an entry of modes needs when, and the name of a mode", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm TL is down
            ^^ syntax
        lights
             ^ syntax
        finder whenever TL is up
               ^^^^^^^^ syntax
        levle when TL is up
        ^^^^^ unknown-name
        TL when level
        ^^ unknown-name
    `);
  });
});

describe("controls of a handset", () => {
  const control = (text: string) => {
    const script = workspaceOf({ "w.fettle": `handset "Wheel"\ncontrols\n  ${text}\n` }).script("w.fettle")!;
    const { value } = script.entries[0]!;
    return value && printValue(value);
  };

  test.each([
    ["TL switch ch5 up 1000 us down 2000 us", "switch ch5  up 1000 us  down 2000 us"],
    ["TL switch ch5 up 1ms down 2ms rests down", "switch ch5  up 1000 us  down 2000 us  rests down"],
    ["TL switch ch5 up 1000 us down 2000 us rests up", "switch ch5  up 1000 us  down 2000 us"],
    ["KN dial ch9 1000 to 2000 us", "dial ch9 1000 us to 2000 us"],
    ["KN dial ch9 2000 us to 1000 us", "dial ch9 2000 us to 1000 us"],
  ])("%s", (text, expected) => expect(control(text)).toBe(expected));

  test("a selector has up to 16 positions", () => {
    const selector = (count: number) =>
      `SX selector ch10 ${Array.from({ length: count }, (_, i) => `p${i} ${1000 + i} us`).join(" ")}`;
    expect(control(selector(16))).not.toBeNull();
    expect(control(selector(17))).toBeNull();
  });

  test("what is wrong with a control", () => {
    check(`
      handset "Wheel"
      controls
        tl switch ch5 up 1000 us down 2000 us
        ^^ syntax
        A1 lever ch5 up 1000 us down 2000 us
           ^^^^^ unknown-name
        A2 switch up 1000 us down 2000 us
                  ^^ wrong-type
        A3 switch ch5 up 1000 us
           ^^^^^^^^^^^^^^^^^^^^^ wrong-type
        A4 button ch5 a 1000 us b 1200 us c 1400 us
           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wrong-type
        A5 switch ch5 up 1000 down 2000 us
                         ^^^^ missing-unit
        A6 switch ch5 up 1000 us up 2000 us
                                 ^^ wrong-type
        A7 switch ch5 up 1000 us at 2000 us
                                 ^^ syntax
        A8 switch ch5 up 1000 us min 2000 us
                                 ^^^ syntax
        A9 switch ch5 up 1000 us down 2000 us rests mid
                                                    ^^^ unknown-name
        B1 switch ch4 up 1000 us down 2000 us
                  ^^^ out-of-range
        B2 switch ch6 up 1000 us down 9000 us
                                      ^^^^^^^ out-of-range
        B3 dial ch7 1000 to 2000
                            ^^^^ missing-unit
        B4 dial ch7 1000 us to 1000 us
                    ^^^^^^^^^^^^^^^^^^ wrong-type
        B5 dial ch7 up 1000 us
                    ^^ wrong-type
    `);
  });
});
