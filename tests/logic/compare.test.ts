/** Which craft can be laid side by side, state by state, and which cannot. */
import { expect, test } from "vitest";
import { pairBoards } from "../../shared/logic/compare.ts";
import type { SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { readInput } from "./read-board.ts";

const WHEEL = `
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch9 1000 us to 2000 us`;

const comparable = (before: SwitchInput, after: SwitchInput) =>
  [pairBoards(before, after), pairBoards(after, before)].map((pair) => pair !== null);
const having = (handset: string, more: Partial<SwitchInput> = {}) => readInput(`${handset}\narm when TL is up`, more);
const wheel = (more: Partial<SwitchInput> = {}) => having(WHEEL, more);

test.each([
  ["a position of another name", WHEEL.replace("mid", "middle")],
  ["a position at another pulse", WHEEL.replace("1500 us", "1400 us")],
  ["a position more", WHEEL.replace("TL switch ch5 up 1000 us", "TL switch ch5 up 1000 us mid 1500 us")],
  ["another channel", WHEEL.replace("ch6", "ch7")],
  ["another kind", WHEEL.replace("KN dial ch9 1000 us to 2000 us", "KN switch ch9 up 1000 us down 2000 us")],
  ["another name", WHEEL.replace("KN", "KM")],
  ["a dial's other low end", WHEEL.replace("1000 us to 2000 us", "1010 us to 2000 us")],
  ["a dial's other high end", WHEEL.replace("1000 us to 2000 us", "1000 us to 1990 us")],
  ["a control more", `${WHEEL}\n  PB button ch7 rest 1000 us held 2000 us`],
])("controls that differ have no states in common: %s", (_, handset) =>
  expect(comparable(wheel(), having(handset))).toEqual([false, false]),
);

test.each([
  ["a fault in a line of a control", { faultyControls: ["PB"] }],
  ["another low end of the link", { endpointsUs: { fromUs: 990, toUs: 2000 } }],
  ["another high end of the link", { endpointsUs: { fromUs: 1000, toUs: 2010 } }],
  ["a channel of two levels", { twoLevelChannels: [6] }],
  ["a stick as measured", { measuredUs: new Map([[1, { fromUs: 990, toUs: 2010 }]]) }],
] satisfies [string, Partial<SwitchInput>][])("nor has %s", (_, more) =>
  expect(comparable(wheel(), wheel(more))).toEqual([false, false]),
);

test("where a control rests, which way a dial turns, and in what order they stand, changes no state", () => {
  const lines = WHEEL.trimStart().split("\n");
  const turned = [lines[2]!.replace("1000 us to 2000 us", "2000 us to 1000 us"), `${lines[1]} rests mid`, lines[0]!];
  expect(comparable(wheel(), having(turned.join("\n")))).toEqual([true, true]);
  expect(comparable(wheel(), wheel({ faultyControls: [], twoLevelChannels: [] }))).toEqual([true, true]);
  const levels = (twoLevelChannels: number[]) => wheel({ twoLevelChannels });
  expect(comparable(levels([5, 6]), levels([6, 5, 6]))).toEqual([true, true]);
});

test("what differs, by name; a mode means the one of its own craft, and nothing is known of a fault", () => {
  const pair = pairBoards(
    readInput(`${WHEEL}
      arm   when TL is down
      level when arm and not TR is up
      home  when arm or TR is down
      broken finder
      turtle when TL is up`),
    readInput(`${WHEEL}
      arm   when TL is not up
      level when arm and TR is mid
      home  when arm
      finder when TL is up
      broken turtle`),
  )!;
  expect(["arm", "level", "home", "finder", "turtle", "launch"].map((name) => pair.same(name))).toEqual([
    true,
    false,
    false,
    null,
    null,
    // Nobody set it up, so it is off in both.
    true,
  ]);
  expect(pair.difference("arm")).toBeNull();
  expect(pair.difference("level")!.needed).toEqual({ TL: "down", TR: "down" });
  expect(pair.difference("home")!.needed).toEqual({ TL: "up", TR: "down" });
  expect(pair.difference("finder")).toBeNull();
  expect(pair.difference("turtle")).toBeNull();
  expect(pair.before("turtle")).not.toBeNull();
  expect(pair.after("turtle")).toBeNull();
});

test("a mode is its own craft's wherever a condition names it", () => {
  const craft = (arm: string) =>
    readInput(`${WHEEL}
      arm when TL is ${arm}
      level when TR is up or arm
      home when not arm
      finder when TR is up and not arm`);
  const pair = pairBoards(craft("up"), craft("down"))!;
  for (const name of ["arm", "level", "home", "finder"]) expect(pair.same(name)).toBe(false);
  const same = pairBoards(craft("up"), craft("up"))!;
  for (const name of ["arm", "level", "home", "finder"]) expect(same.same(name)).toBe(true);
});

test("with which values of a control they differ, in some state", () => {
  const before = readInput(`${WHEEL}
    arm   when TL is down
    level when KN above 1400 us and TR is up
    home  when KN below 1200 us or KN above 1800 us
    same  when TR is mid`);
  const after = readInput(`${WHEEL}
    arm   when TL is down and TR is up
    level when KN above 1600 us and TR is up
    home  when KN below 1100 us or KN above 1850 us
    same  when not TR is up and not TR is down`);
  const pair = pairBoards(before, after)!;
  expect(pair.differsWith("arm", "TL")).toEqual({ positions: ["down"], pulses: [] });
  expect(pair.differsWith("arm", "TR")).toEqual({ positions: ["mid", "down"], pulses: [] });
  // Whatever the dial, they differ in some state.
  expect(pair.differsWith("arm", "KN")).toEqual({ positions: [], pulses: [{ fromUs: 1000, toUs: 2000 }] });
  expect(pair.differsWith("level", "KN")).toEqual({ positions: [], pulses: [{ fromUs: 1401, toUs: 1600 }] });
  expect(pair.differsWith("level", "TR")).toEqual({ positions: ["up"], pulses: [] });
  expect(pair.differsWith("home", "KN")?.pulses).toEqual([
    { fromUs: 1100, toUs: 1199 },
    { fromUs: 1801, toUs: 1850 },
  ]);
  expect(pair.differsWith("same", "TR")).toEqual({ positions: [], pulses: [] });
});

test("nothing is said of what cannot be followed", () => {
  const pair = pairBoards(readInput(`${WHEEL}\nbroken arm`), readInput(`${WHEEL}\narm when TL is up`))!;
  expect(pair.differsWith("arm", "TL")).toBeNull();
});
