/** What boards write, what it means, and how the board would write it again. */
import { expect, test } from "vitest";
import { splitSum } from "../../../shared/dialect/codes/codes.ts";
import { heldOfOurs, textOfHeld } from "../../../shared/dialect/codes/held.ts";
import { codeOf, codesOf, decoded, encoded } from "./code-of.ts";

const read = (line: string, raw: string): string => decoded(codeOf(line), raw);
const written = (line: string, ours: string): string => encoded(codeOf(line), ours);

const BOTH_WAYS: readonly (readonly [code: string, board: string, ours: string])[] = [
  ["glaze number 0 to 220 each 0.02 V/cell", "175", "3.5 V/cell"],
  ["draw number 0 to 60 from 880 us each 20 us", "31", "1500 us"],
  ["flue number 0 to 11 from ch5", "2", "ch7"],
  ["tenths number each 0.1 V", "143", "14.3 V"],
  ["plain number places 2", "3.50", "3.5"],
  ["period number 1 to 4000 into 8000", "250", "32"],
  ["tilt number -90 to 90 base 16 digits 4", "FFCE", "-50"],
  ["tilt number -90 to 90 base 16", "FFFFFFCE", "-50"],
  ["tilt number -90 to 90 digits 3", "-050", "-50"],
  ["low number 0 to 255 base 16 digits 2 each 1 Hz", "0A", "10 Hz"],
  ["axis words R roll, P pitch, Y yaw", "P", "pitch"],
  ["power words 0 25 mW, 1 200 mW", "1", "200 mW"],
];

test.for(BOTH_WAYS)("%s: %s is %s, both ways", ([code, board, ours]) => {
  expect([read(code, board), written(code, ours)]).toEqual([ours, board]);
});

const READ_ONLY: readonly (readonly [code: string, board: string, means: string])[] = [
  ["low number 0 to 255 base 16 digits 2", "0a", "10"],
  ["low number 0 to 9", "10", "bad: 10 is beyond 0 to 9"],
  ["low number 0 to 9 unset 255", "255", "unset"],
  ["plain number places 2", "3.5", "3.5"],
  ["plain number places 2", "3.555", "bad: “3.555” is no number of “plain”"],
  ["does words - unset, a arm", "-", "unset"],
  ["sticks letters T throttle, R roll, P pitch, Y yaw", "RPTY", "roll pitch throttle yaw"],
  ["name text within '\"' escape '\\'", '"a \\" b \\\\"', '"a \\" b \\\\"'],
  ["spot bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset", "4083", "row 3, column 2"],
  ["spot bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset", "0083", "unset"],
  ["have set base 16 0 gps, 3 compass", "9", "gps, compass"],
  ["have set base 16 0 gps, 3 compass", "0", "unset"],
];

test.for(READ_ONLY)("%s: %s means %s", ([code, board, means]) => {
  expect(read(code, board)).toBe(means);
});

const WRITTEN: readonly (readonly [code: string, ours: string, board: string])[] = [
  ["glaze number 0 to 220 each 0.02 V/cell", "3.51 V/cell", "175 (3.5 V/cell)"],
  ["draw number 0 to 60 from 880 us each 20 us", "1509 us", "31 (1500 us)"],
  [
    "glaze number 0 to 220 each 0.02 V/cell",
    "5 V/cell",
    "cannot: 5 V/cell is beyond what the board takes: 0 V/cell to 4.4 V/cell",
  ],
  ["tenths number each 0.1 V", "14300 mV", "143"],
  ["axis words R roll", "yaw", "cannot: “axis” has no word for yaw"],
];

test.for(WRITTEN)("%s: %s is written %s", ([code, ours, board]) => {
  expect(written(code, ours)).toBe(board);
});

test("a value in two parts takes the largest step first", () => {
  const codes = codesOf("high number 0 to 255 each 256", "low number 0 to 255");
  const terms = ["high", "low"].map((name) => ({ code: codes.get(name)!, whole: null }));
  expect(splitSum(terms, heldOfOurs("1000"))?.map(textOfHeld)).toEqual(["768", "232"]);
});
