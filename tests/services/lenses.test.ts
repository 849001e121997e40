import { expect, test } from "vitest";
import { lensesOf } from "../../shared/services/lenses.ts";
import { WHEEL, workspaceOf } from "../rules/check.ts";

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
const shown = (file: string) => lensesOf(workspace, file).map(({ range, title }) => `${range.start.line} ${title}`);

// Counted by hand: arm on or off, recorder on or off, and three of (level with lamp, turtle): neither
// (up), level (mid), both (down). So 2 x 2 x 3 = 12 states.
test("each mode of the craft's own file has one, with what it counts and where it rests", () => {
  expect(shown("jug.fettle")).toEqual([
    "6 on in 8 of 12 states; at rest: off",
    "9 on in 6 of 12 states; at rest: off",
    "10 on in 8 of 12 states; at rest: off",
    "12 on in 6 of 12 states; at rest: on or off",
  ]);
});

test("it stands on the mode's name", () => {
  expect(lensesOf(workspace, "jug.fettle")[1]!.range).toEqual({
    start: { line: 9, character: 2 },
    end: { line: 9, character: 5 },
  });
});

test("a layer and a handset have no states of their own", () => {
  expect(shown("habits.fettle")).toEqual([]);
  expect(shown("wheel.fettle")).toEqual([]);
  expect(shown("nowhere.fettle")).toEqual([]);
});

test("what is on whatever happens is on in the one state that there is", () => {
  const always = workspaceOf({ "cup.fettle": 'craft "Cup"\nmodes\n  arm when always\n' });
  expect(lensesOf(always, "cup.fettle").map(({ title }) => title)).toEqual(["on in 1 of 1 state; at rest: on"]);
});
