/** Ranges of a board's lines as conditions of a script: a corpus that is read, and the same states by the logic. */
import { expect, test } from "vitest";
import { conditionFromRanges, dialFor, joinConditions } from "../../../shared/dialect/conditions/from-ranges.ts";
import { readInput } from "../../logic/read-board.ts";
import { blocksOf, conditionOfLines, controlsOf, rangesOf, sameStates } from "./blocks.ts";

const cases = blocksOf("from-ranges.txt").flatMap(({ board, input, cases: lines }) =>
  lines.map((line) => {
    const [ranges, said] = line.split(" = ");
    return { title: `${line} [${board.replaceAll("\n", "; ")}]`, input, ranges: rangesOf(ranges!), said: said! };
  }),
);

test("there are enough of them", () => {
  expect(cases.length).toBeGreaterThanOrEqual(60);
});

test.each(cases)("$title", ({ input, ranges, said }) => {
  const text = conditionFromRanges(ranges, controlsOf(input), input.endpointsUs, input.twoLevelChannels);
  expect(text).toBe(said);
  if (ranges.some(({ fromUs, toUs }) => fromUs >= toUs)) return;
  const read = readInput(`mode when ${text}`).conditions[0]!.lines;
  // Two controls on one channel: neither is known.
  const drivers = input.controls.filter(({ channel }) => ranges.some((range) => range.channel === channel));
  const isKnown = new Set(drivers.map(({ channel }) => channel)).size === drivers.length;
  expect(sameStates(input, conditionOfLines([ranges]), read)).toBe(isKnown ? true : null);
});

test("a dial follows only where it alone drives the channel", () => {
  const input = readInput(
    "KN dial ch9 1000 us to 2000 us\nKA dial ch8 1000 us to 2000 us\nKB dial ch8 1000 us to 2000 us\nTL switch ch5 up 1000 us down 2000 us",
  );
  expect([9, 8, 5, 6].map((channel) => dialFor(channel, controlsOf(input)))).toEqual(["KN", null, null, null]);
});

test("several lines are joined, each said once", () => {
  expect(joinConditions(["TL is down and TR is mid", "PB is held", "PB is held"])).toBe(
    "TL is down and TR is mid or PB is held",
  );
});
