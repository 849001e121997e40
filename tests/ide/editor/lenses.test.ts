import { describe, expect, test } from "vitest";
import { lensesOf } from "../../../shared/ide/editor/lenses.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const JUG = `craft "Jug"
use "wheel.fettle"
use "habits.fettle"

outputs
  # the lamp
  lamp      when level

modes
  arm       when TL is down
  level     when TR is mid
  level     when TR is down
  recorder  when KN above 1500 us
  finder    when TX is up
`;
const HABITS = 'layer "Habits"\n\nmodes\n  turtle when TR is down\n';

const workspace = workspaceOf({ "wheel.fettle": WHEEL, "habits.fettle": HABITS, "jug.fettle": JUG });
const allTitles = (files: Workspace, file: string) =>
  lensesOf(files, file).map(({ range, title }) => `${title}, line ${range.start.line}`);
/** Those above modes and outputs: the header stands on the first line. */
const lensTitles = (files: Workspace, file: string) =>
  allTitles(files, file).filter((title) => !title.endsWith(", line 0"));
const shown = (file: string) => lensTitles(workspace, file);

// Counted by hand: arm on or off, recorder on or off, and three of (level with lamp, turtle): neither
// (up), level (mid), both (down). So 2 x 2 x 3 = 12 states.
test("each mode of the craft's own file has one, with its states and whether it is on at rest", () => {
  expect(shown("jug.fettle")).toEqual([
    "on in 8 of 12 states; at rest: off, line 6",
    "on in 6 of 12 states; at rest: off, line 9",
    "on in 8 of 12 states; at rest: off, line 10",
    "on in 6 of 12 states; at rest: on or off, line 12",
    "not known, since a line behind it has a fault, line 13",
  ]);
});

test("it stands on the mode's name", () => {
  expect(lensesOf(workspace, "jug.fettle").at(-4)!.range).toEqual({
    start: { line: 9, character: 2 },
    end: { line: 9, character: 5 },
  });
});

test("a layer and a handset have no states of their own", () => {
  expect(shown("habits.fettle")).toEqual([]);
  expect(shown("wheel.fettle")).toEqual([]);
  expect(shown("nowhere.fettle")).toEqual([]);
});

test("a mode that is always on is on in the only state", () => {
  const always = workspaceOf({ "cup.fettle": 'craft "Cup"\nmodes\n  arm when always\n' });
  expect(lensTitles(always, "cup.fettle")).toEqual(["on in 1 of 1 state; at rest: on, line 2"]);
});

// Seventeen switches, each with a lamp of its own: 2^17 states, and every lamp is lit in half of them.
// All of the first eight down is 1 in 256, any of them 255 in 256.
test("of very many states a share is shown", () => {
  const numbers = Array.from({ length: 17 }, (_, i) => i);
  const controls = numbers.map((i) => `  S${i} switch ch${5 + i} up 1000 us down 2000 us\n`).join("");
  const lamps = numbers.map((i) => `  lamp${i} when S${i} is down\n`).join("");
  const all = numbers.slice(0, 8).map((i) => `S${i} is down`);
  const modes = `  arm when ${all.join(" and ")}\n  finder when ${all.join(" or ")}\n`;
  const files = workspaceOf({
    "wide.fettle": `handset "Wide"\ncontrols\n${controls}`,
    "big.fettle": `craft "Big"\nuse "wide.fettle"\noutputs\n${lamps}modes\n${modes}`,
  });
  expect(lensTitles(files, "big.fettle").slice(16)).toEqual([
    "on in 50 % of all states; at rest: off, line 19",
    "on in less than 1 % of all states; at rest: off, line 21",
    "on in more than 99 % of all states; at rest: off, line 22",
  ]);
});

describe("what a lens above a mode leads to: the positions nearest to rest in which it is on", () => {
  const actions = lensesOf(workspace, "jug.fettle").slice(4);

  test.each([
    ["lamp", { positions: { TR: "mid" } }],
    ["arm", { positions: { TL: "down" } }],
    ["level", { positions: { TR: "mid" } }],
    ["recorder", { positions: { KN: 1751 } }],
    ["finder", null],
  ])("%s", (_, expected) => {
    const lens = actions[["lamp", "arm", "level", "recorder", "finder"].indexOf(_)]!;
    expect(lens.action).toEqual(expected && { kind: "positions", ...expected });
  });

  test("a mode that is on at rest leads to rest, and one that can never be on to nothing", () => {
    const cup = workspaceOf({
      "wheel.fettle": WHEEL,
      "cup.fettle":
        'craft "Cup"\nuse "wheel.fettle"\nmodes\n  level when TL is up\n  arm when TL is up and TL is down\n',
    });
    expect(
      lensesOf(cup, "cup.fettle")
        .slice(4)
        .map(({ action }) => action),
    ).toEqual([{ kind: "positions", positions: {} }, null]);
  });
});

describe("above the header", () => {
  const many = Array.from({ length: 5 }, (_, i) => [`${i}.fettle`, `craft "C${i}"\nuse "habits.fettle"\n`]);
  const all = workspaceOf({
    "wheel.fettle": WHEEL,
    "habits.fettle": `\n# ours\n${HABITS}`,
    "spare.fettle": 'layer "Spare"\n',
    "newer.fettle": 'craft "Newer" edition 9\n',
    "loose.fettle": "modes\n  arm when always\n",
    ...Object.fromEntries(many),
  });

  test.each([
    ["0.fettle", ["Goggles, line 0", "Switches, line 0", "Numbers, line 0", "as effective craft, line 0"]],
    [
      "habits.fettle",
      [
        "Goggles, line 2",
        "Switches, line 2",
        "Numbers, line 2",
        "used by 5 craft, line 2",
        "as effective craft, line 2",
      ],
    ],
    ["wheel.fettle", ["used by no craft, line 0"]],
    ["spare.fettle", ["used by no craft, line 0"]],
    ["newer.fettle", []],
    ["loose.fettle", []],
  ])("of %s", (file, titles) => {
    expect(allTitles(all, file)).toEqual(titles);
  });
});
