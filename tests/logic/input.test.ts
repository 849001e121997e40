/** What a craft's files say of switches and link, as the logic takes it, and when two craft say the same. */
import { describe, expect, test } from "vitest";
import { linkOf, switchboardOf } from "../../shared/logic/from-craft.ts";
import { sameInput } from "../../shared/logic/same-input.ts";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { craftOf } from "../model/effective.ts";
import { WHEEL } from "../rules/check.ts";
import { readBoard, readInput } from "./read-board.ts";

const craft = (...lines: string[]) =>
  craftOf({ "jug.fettle": ['craft "Jug"', ...lines].join("\n"), "wheel.fettle": WHEEL });

describe("the link", () => {
  const link = (...lines: string[]) => linkOf(craft("link", ...lines.map((line) => `  ${line}`)));

  test("what is not said, or has a fault, is what is usual or not known", () => {
    const unsaid = {
      endpointsUs: { fromUs: 1000, toUs: 2000 },
      loss: { onLoss: null, pulsesUs: new Map() },
      twoLevelChannels: [],
      channels: null,
      resolutionUs: null,
    };
    expect(link("band 2.4 GHz")).toEqual(unsaid);
    const faults = [
      "endpoints 990",
      "on-loss kettle",
      "preset-channels x",
      "two-level y",
      "channels z",
      "resolution w",
    ];
    expect(link(...faults)).toEqual(unsaid);
  });

  test("each way to lose it, each preset by its channel, and figures in other units", () => {
    for (const word of ["silent", "hold", "preset"]) expect(link(`on-loss ${word}`).loss.onLoss).toBe(word);
    expect(link("endpoints 0.99 ms to 2.01 ms").endpointsUs).toEqual({ fromUs: 990, toUs: 2010 });
    expect(link("resolution 8 us", "channels 12", "two-level 5, 7")).toMatchObject({
      resolutionUs: 8,
      channels: 12,
      twoLevelChannels: [5, 7],
    });
    expect([...link("preset-channels 1500 us, 990 us, 2 ms").loss.pulsesUs]).toEqual([
      [1, 1500],
      [2, 990],
      [3, 2000],
    ]);
  });

  test("a stick as measured counts for its own channel, by the order of the sticks", () => {
    const measured = (...lines: string[]) => [
      ...switchboardOf(craft(...lines, "bench", "  roll 990 us to 2010 us", "  throttle 1.001 ms to 1.999 ms")).input
        .measuredUs!,
    ];
    const [roll, throttle] = [
      { fromUs: 990, toUs: 2010 },
      { fromUs: 1001, toUs: 1999 },
    ];
    expect(measured()).toEqual([
      [1, roll],
      [3, throttle],
    ]);
    expect(measured("link", "  order throttle yaw pitch roll")).toEqual([
      [1, throttle],
      [4, roll],
    ]);
  });
});

test("a control that no file has is a fault only where all files could be read", () => {
  const problems = (...uses: string[]) => switchboardOf(craft(...uses, "modes", "  arm when XX is up")).problems.length;
  expect(problems()).toBe(1);
  expect(problems('use "wheel.fettle"')).toBe(1);
  expect(problems('use "gone.fettle"')).toBe(0);
  expect(problems('use "gone.fettle"', 'use "wheel.fettle"')).toBe(1);
  expect(problems("use wheel")).toBe(0);
});

test("nor where a file that another one uses could not be read", () => {
  const problems = (habits: string) => {
    const made = craftOf({
      "jug.fettle": 'craft "Jug"\nuse "habits.fettle"\nmodes\n  arm when XX is up',
      "habits.fettle": `layer "Habits"\n${habits}`,
    });
    return switchboardOf(made).problems.length;
  };
  expect(problems("")).toBe(1);
  expect(problems('use "gone.fettle"')).toBe(0);
});

describe("two inputs are the same", () => {
  const base: SwitchInput = readInput(`${WHEEL.split("\n").slice(2).join("\n")}
    arm when TL is up
    level when TR is mid`);
  const full: SwitchInput = {
    ...base,
    precedence: [],
    handsetKnown: true,
    faultyControls: ["XX"],
    twoLevelChannels: [6],
    loss: { onLoss: "preset", pulsesUs: new Map([[5, 1000]]) },
    measuredUs: new Map([[1, { fromUs: 990, toUs: 2010 }]]),
  };
  const [control, ...controls] = base.controls;
  const [condition, ...conditions] = base.conditions;
  const withControl = (more: object) => ({ controls: [{ ...control!, ...more }, ...controls] });
  const dial = (more: object) => ({ controls: base.controls.map((c) => (c.kind === "dial" ? { ...c, ...more } : c)) });
  const line = condition!.lines[0]!;
  const withCondition = (more: object) => ({ conditions: [{ ...condition!, ...more }, ...conditions] });
  const withLine = (more: object) => withCondition({ lines: [{ ...line, ...more }] });

  test("as long as each part is", () => {
    const copy = {
      ...full,
      ...withControl({}),
      ...withLine({}),
      endpointsUs: { ...full.endpointsUs },
      faultyControls: ["XX"],
      measuredUs: new Map([[1, { fromUs: 990, toUs: 2010 }]]),
    };
    expect(sameInput(full, copy)).toBe(true);
    expect(sameInput(base, { ...base })).toBe(true);
    expect(sameInput(base, { ...base, loss: { onLoss: null, pulsesUs: new Map() } })).toBe(false);
  });

  test.each([
    ["precedence", { precedence: [{ over: "level", under: ["level-blend"] }] }],
    ["whether the handset could be read", { handsetKnown: false }],
    ["the low end of the link", { endpointsUs: { fromUs: 990, toUs: 2000 } }],
    ["the high end of the link", { endpointsUs: { fromUs: 1000, toUs: 2010 } }],
    ["a control with a fault", { faultyControls: ["XY"] }],
    ["no control with a fault", { faultyControls: undefined }],
    ["a channel of two levels", { twoLevelChannels: [7] }],
    ["no channel of two levels", { twoLevelChannels: undefined }],
    ["what is done on loss", { loss: { ...full.loss!, onLoss: "hold" } }],
    ["a preset", { loss: { ...full.loss!, pulsesUs: new Map([[5, 1001]]) } }],
    ["a preset's channel", { loss: { ...full.loss!, pulsesUs: new Map([[6, 1000]]) } }],
    ["no loss", { loss: undefined }],
    ["a stick as measured", { measuredUs: new Map([[1, { fromUs: 990, toUs: 2000 }]]) }],
    ["another stick as measured", { measuredUs: new Map([[2, { fromUs: 990, toUs: 2010 }]]) }],
    ["a control's name", withControl({ name: "TX" })],
    ["a control's kind", withControl({ kind: "button" })],
    ["a control's channel", withControl({ channel: 15 })],
    ["where a control rests", withControl({ rest: "down" })],
    ["a position's name", withControl({ positions: [{ name: "low", pulseUs: 1000 }, control!.positions[1]!] })],
    ["a position's pulse", withControl({ positions: [{ name: "up", pulseUs: 1001 }, control!.positions[1]!] })],
    ["a dial's first end", dial({ fromUs: 1001 })],
    ["a dial's second end", dial({ toUs: 1999 })],
    ["a control less", { controls }],
    ["a mode's name", withCondition({ name: "turtle" })],
    ["a mode's words", withLine({ condition: conditions[0]!.lines[0]!.condition })],
    ["a mode's line", withLine({ source: { ...line.source, line: 99 } })],
    ["a mode's file", withLine({ source: { ...line.source, file: "other" } })],
    ["a mode less", { conditions }],
  ] as [string, Partial<SwitchInput>][])("and differ in %s", (_, more) => {
    const other = { ...full, ...more };
    expect([sameInput(full, other), sameInput(other, full)]).toEqual([false, false]);
  });
});

describe("what is not known stays so", () => {
  const CONTROLS = "TL switch ch5 up 1000 us down 2000 us\nTR switch ch6 up 1000 us mid 1500 us down 2000 us\n";

  test("a mode acts where none above it may be on", () => {
    const precedence = [{ over: "level", under: ["level", "level-blend", "horizon"] }];
    const text = `${CONTROLS}level-blend when TL is up\n`;
    const known = readBoard(`${text}level when TR is up\nfinder when TL is up`, { precedence });
    const { sets, selected } = known;
    expect(known.acts("level-blend")).toBe(sets.and(selected("level-blend")!, sets.not(selected("level")!)));
    expect(known.acts("level")).toBe(known.selected("level"));
    expect(known.acts("finder")).toBe(known.selected("finder"));
    expect(known.acts("horizon")).toBe(known.sets.none);
    const above = readBoard(`${text}broken level`, { precedence });
    expect([above.acts("level-blend"), above.acts("level")]).toEqual([null, null]);
    const below = readBoard(`${CONTROLS}broken level-blend\nlevel when TR is up`, { precedence });
    expect(below.acts("level-blend")).toBeNull();
  });

  test("it clashes with nothing, and no line stands behind it", () => {
    const board = readBoard(`${CONTROLS}arm when TL is up\nbroken level\nfinder when level`);
    const pairs = [
      ["arm", "level"],
      ["level", "arm"],
      ["level", "finder"],
      ["arm", "turtle"],
    ] as const;
    expect(board.clashes(pairs)).toEqual([]);
    expect(board.clashes([["arm", "arm"]])).toHaveLength(1);
    expect(["level", "turtle"].map(board.linesBehind({}))).toEqual([[], []]);
  });

  test("without a word on the loss each mode may be either", () => {
    const { outcomes, armed } = readBoard(`${CONTROLS}arm when TL is up\nlevel when always\nbroken finder`).loss();
    expect([Object.fromEntries(outcomes), armed]).toEqual([{ arm: "either", level: "on" }, "either"]);
  });
});
