import { test } from "vitest";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { expectWithin } from "../../growth.ts";

const NAMES = { ours: "ours", base: "base", theirs: "theirs" };

const merging = (base: string, ours: string, theirs: string) => () => mergeTexts(base, ours, theirs, NAMES);

const lines = (count: number, line: (i: number) => string) => Array.from({ length: count }, (_, i) => line(i)).join("");
const packs = (count: number, value: (i: number) => number) =>
  `craft "Jug"\n${lines(count / 10, (i) => `\npack "Long ${i}"\n  cells  6\n${lines(7, (k) => `  # ${k} of ${i}\n`)}  capacity  ${value(i)} mAh\n`)}`;
const filters = (count: number, value: (i: number) => number) =>
  `craft "Jug"\n\nfilters\n${lines(count, (i) => `  notch  at ${value(i)} Hz  width 40 Hz\n`)}`;

test.each([
  ["sections with a value each", packs],
  ["one list", filters],
])("a merge takes time in proportion: %s", (_, made) => {
  const thousand = merging(
    made(1000, () => 100),
    made(1000, (i) => 100 + (i % 2)),
    made(1000, (i) => 200 - (i % 2)),
  );
  const often = merging(
    made(10_000, (i) => i),
    made(10_000, (i) => i + (i % 7 === 0 ? 1 : 0)),
    made(10_000, (i) => i + (i % 7 === 3 ? 1 : 0)),
  );
  expectWithin(400, thousand);
  expectWithin(4000, often);
});

test.each([
  ["the same line thousands of times", 'craft "Jug"\n\npack\n', "  cells  6\n"],
  ["comments", 'craft "Jug"\n', "# worn\n\n"],
  ["layers", 'craft "Jug"\n', 'use "../layers/habits.fettle"\n'],
  ["board text", 'craft "Jug"\n\nverbatim "kiln"\n', "  | shelf\n"],
  ["sections", 'craft "Jug"\n', "\npack\n"],
  ["a dialect", 'dialect "Kiln"\n\npack\n', '  "holds {c}"  capacity {c} mAh\n'],
  ["no script", "", "{\n"],
])("hostile texts stay bounded: %s", (_, head, line) => {
  const made = (count: number, odd: number) =>
    head + lines(count, (i) => (i % odd === 0 ? line.replace(/[a-z{]+/, "odd") : line));
  expectWithin(1500, merging(made(4000, 7), made(3500, 5), made(4500, 6)));
});
