import { expect, test } from "vitest";
import { pairBoards } from "../../shared/logic/compare.ts";
import { readBoard, readInput } from "./read-board.ts";

const CONTROLS = `TL switch ch5 up 1000 us down 2000 us
TR switch ch6 up 1000 us mid 1500 us down 2000 us
KN dial ch9 1000 us to 2000 us
`;

test("an unknown control or position, or `is` on a dial, is reported with its place, and the mode is not known", () => {
  const board = readBoard(`${CONTROLS}arm when TI is down
level when TR is midle and TL is up
turtle when KN is mid
recorder when arm and TL is up
lights when TL is up`);
  expect(board.problems).toEqual([
    {
      ...{
        code: "unknown-name",
        what: "control",
        in: "arm",
        word: "TI",
        control: "TI",
        candidates: ["TL", "TR"],
      },
      ...{ source: { file: "board", line: 3 }, start: 9, end: 11 },
    },
    {
      ...{ code: "unknown-name", what: "position", in: "level", word: "midle", control: "TR" },
      ...{ candidates: ["mid", "up", "down"], source: { file: "board", line: 4 }, start: 17, end: 22 },
    },
    {
      ...{ code: "wrong-type", what: "position", in: "turtle", word: "mid", control: "KN", candidates: [] },
      ...{ source: { file: "board", line: 5 }, start: 18, end: 21 },
    },
  ]);
  for (const name of ["arm", "level", "turtle", "recorder"]) expect(board.selected(name)).toBe(null);
  expect(board.armed).toBe(null);
  expect(board.stateAt({ TL: "up" })).toEqual({
    on: ["lights"],
    possible: [],
    unknown: ["arm", "level", "turtle", "recorder"],
  });
  expect(board.idlePositions()).toEqual([]);
});

test("a mode that is not set up is off, and reported", () => {
  const board = readBoard(`${CONTROLS}recorder when arm or TL is down
lights when not arm`);
  expect(board.unset).toEqual([
    { mode: "arm", in: "recorder", source: { file: "board", line: 3 }, start: 14, end: 17 },
    { mode: "arm", in: "lights", source: { file: "board", line: 4 }, start: 16, end: 19 },
  ]);
  expect(board.selected("recorder")).toBe(board.sets.where({ TL: "down" }));
  expect(board.selected("lights")).toBe(board.sets.every);
  expect(board.armed).toBe(board.sets.none);
});

test("cycles are reported link by link, and modes that depend on them are not known", () => {
  const board = readBoard(`${CONTROLS}arm when arm
level when turtle or TL is up
turtle when lights
lights when level
recorder when lights
finder when TL is up`);
  expect(board.cycles.map(({ links }) => links.map(({ from, to, source }) => [from, to, source.line]))).toEqual([
    [["arm", "arm", 3]],
    [
      ["level", "turtle", 4],
      ["turtle", "lights", 5],
      ["lights", "level", 6],
    ],
  ]);
  expect(board.names.filter((name) => board.selected(name) === null)).toEqual([
    "arm",
    "level",
    "turtle",
    "lights",
    "recorder",
  ]);
  expect(board.selected("finder")).not.toBe(null);
});

test("a line that cannot be read leaves its mode, and modes that name it, not known, without a finding of its own", () => {
  const board = readBoard(`${CONTROLS}arm when TL is down
broken arm
recorder when arm`);
  expect(board.selected("arm")).toBe(null);
  expect(board.selected("recorder")).toBe(null);
  expect([board.problems, board.unset, board.cycles]).toEqual([[], [], []]);
  expect(board.countStates()).toBe(1);
});

test("a control whose line has a fault, or a handset that could not be read, is no finding here", () => {
  const faulty = readBoard(`${CONTROLS}arm when PB is held`, { faultyControls: ["PB"] });
  expect([faulty.problems, faulty.selected("arm")]).toEqual([[], null]);
  const without = readBoard("arm when PB is held", { handsetKnown: false });
  expect([without.problems, without.selected("arm")]).toEqual([[], null]);
});

test("the same conditions in other words are the same; others differ, with a state as proof", () => {
  const before = readInput(`${CONTROLS}arm when TL is down
level when TR is mid or TR is down
turtle when level and TL is up`);
  const after = readInput(`${CONTROLS}arm when ch5 above 1999 us
level when not TR is up
turtle when TR is mid and TL is up
recorder when TL is up`);
  const pair = pairBoards(before, after)!;
  expect(pair.same("arm")).toBe(true);
  expect(pair.same("level")).toBe(true);
  expect(pair.same("turtle")).toBe(false);
  expect(pair.difference("turtle")?.needed).toEqual({ TL: "up", TR: "down" });
  // A mode that is not set up is off.
  expect(pair.same("recorder")).toBe(false);
  expect(pair.difference("arm")).toBe(null);
  expect(pairBoards(before, readInput("TL switch ch5 up 1000 us down 2000 us"))).toBe(null);
});

test("of many names the 20 nearest are offered; where very many names are wrong, or one is very long, none are", () => {
  const controls = Array.from({ length: 60 }, (_, i) => `S${i + 10} switch ch${5 + i} up 1000 us down 2000 us`);
  const wrong = Array.from({ length: 2000 }, (_, i) => `outputs.o${i} when S${i + 100} is up`);
  const long = `outputs.long when S${"1".repeat(81)} is up`;
  const { problems } = readBoard([...controls, long, "outputs.again when S100 is up", ...wrong].join("\n"));
  expect(problems).toHaveLength(2002);
  const [ofLong, first, same] = problems.map(({ candidates }) => candidates);
  expect(ofLong).toEqual([]);
  // One letter away from S100; the others keep the handset's order.
  expect(first).toHaveLength(20);
  expect(first!.slice(0, 3)).toEqual(["S10", "S11", "S12"]);
  expect(same).toEqual(first);
  expect(problems.at(-1)!.candidates).toEqual([]);
});
