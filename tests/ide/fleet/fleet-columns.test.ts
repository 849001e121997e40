import fc from "fast-check";
import { expect, test } from "vitest";
import { partsThatFit } from "../../../shared/ide/fleet/fleet-columns.ts";
import { cell, tableOf } from "./hand-made-fleets.ts";

const partsOf = (...texts: string[]) =>
  partsThatFit(tableOf("T", [texts.map((text) => cell(text))])).map(({ columns }) => columns.map(({ at }) => at + 1));

test("columns that fit stand in one part", () => {
  expect(partsOf("a", "b", "c")).toEqual([[1, 2, 3]]);
});

test("more go into as few parts as there can be, which are as even as they can be", () => {
  const many = (count: number) => partsOf(...Array.from({ length: count }, () => "ten-letter"));
  expect(many(11).map(({ length }) => length)).toEqual([11]);
  expect(many(12).map(({ length }) => length)).toEqual([6, 6]);
  expect(many(60).map(({ length }) => length)).toEqual([10, 10, 10, 10, 10, 10]);
});

test("a long word makes its column wide, up to a limit, and a name breaks behind its stops and hyphens", () => {
  const shareOf = (name: string, text: string) => {
    const table = tableOf("T", [[cell(text), cell("x")]]);
    const [part] = partsThatFit({
      ...table,
      columns: [
        { name, what: null },
        { name: "c2", what: null },
      ],
    });
    return part!.columns[0]!.share;
  };
  expect(shareOf("c1", "one-word-as-it-is")).toBeGreaterThan(shareOf("c1", "word"));
  expect(shareOf("c1", "x".repeat(10_000))).toBe(shareOf("c1", "x".repeat(40)));
  expect(shareOf("safety.arm-throttle-limit", "a")).toBeLessThan(shareOf("safetyarmthrottlelimit", "a"));
});

test("whatever is in the cells, each column is in one part, in order, and no part is wider than the page", () => {
  const text = fc.string({ maxLength: 80 });
  const row = fc.array(fc.tuple(text, fc.option(text)), { minLength: 1, maxLength: 70 });
  fc.assert(
    fc.property(row, (cells) => {
      const parts = partsThatFit(tableOf("T", [cells.map(([own, most]) => cell(own, most))]));
      expect(parts.flatMap(({ columns }) => columns.map(({ at }) => at))).toEqual(cells.map((_, at) => at));
      for (const { columns, nameShare, share } of parts) {
        expect(columns.length).toBeGreaterThan(0);
        expect(columns.reduce((sum, each) => sum + each.share, nameShare)).toBeCloseTo(100, 0);
        expect(share).toBeLessThanOrEqual(100);
      }
    }),
    { seed: 13, numRuns: 200 },
  );
});
