/** Layout on texts made at random: it keeps what they mean, and laid out again they stay. */
import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { formatted } from "../../../shared/ide/format/format.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { expectGrowth } from "../../growth.ts";
import { madePair } from "../compare/made-pairs.ts";
import { brokenLaw, brokenRange } from "./laws.ts";
import { catalogue } from "./meaning.ts";
import { place, spoil } from "./spoiled.ts";

const dialects = ["findings/sound.txt", "findings/faulty.txt"].flatMap((file) =>
  readFileSync(new URL(`../../dialect/${file}`, import.meta.url), "utf8")
    .split(/^=== .*\n/m)
    .slice(1)
    .map((text) => `dialect "Kiln"\n${text.replace(/ *<<<.*/g, "")}`),
);

const script = fc.nat(2 ** 31 - 1).map((seed) => {
  const texts = Object.values(madePair(seed).texts);
  return texts[seed % texts.length]!;
});
const dialect = fc
  .tuple(fc.constantFrom(...dialects), fc.constantFrom(...dialects))
  .map(([a, b]) => a + b.replace(/^dialect.*\n/, ""));

function holds(text: string): void {
  expect(brokenLaw(text), text).toBeNull();
}

test("2,000 scripts of all kinds and layouts", () => {
  fc.assert(fc.property(script, holds), { seed: 14, numRuns: 2000 });
}, 120_000);

test("dialects, sound and faulty", () => {
  for (const text of dialects) holds(text);
  fc.assert(fc.property(dialect, holds), { seed: 14, numRuns: 200 });
}, 60_000);

test("a range of lines: all outside of it stays, and the meaning too", () => {
  fc.assert(
    fc.property(fc.oneof(script, script, dialect), place, place, (text, a, b) => {
      const lines = parse(text).lines.length;
      const [first, last] = [Math.floor(a * (lines - 1)), Math.floor(b * (lines - 1))].sort((x, y) => x - y) as [
        number,
        number,
      ];
      expect(brokenRange(text, first, last), text).toBeNull();
    }),
    { seed: 14, numRuns: 300 },
  );
}, 60_000);

test("800 texts spoiled in several ways: cut, doubled, with signs of others, tabs, markers of merges and line ends in them", () => {
  fc.assert(
    fc.property(
      fc.oneof(script, script, script, dialect),
      fc.array(spoil, { minLength: 1, maxLength: 6 }),
      (text, spoils) => {
        holds(spoils.reduce((now, each) => each(now), text));
      },
    ),
    { seed: 14, numRuns: 800 },
  );
}, 120_000);

test("any text at all", () => {
  fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 300 }), holds), { seed: 14, numRuns: 500 });
  const lines = fc.array(
    fc.constantFrom(
      "",
      " ",
      "\t",
      "# a",
      "  # b ",
      "pack",
      "  cells 6",
      "x",
      "<<<<<<< a",
      "=======",
      ">>>>>>> b",
      'use "a"',
      'craft "b"',
      "  |x ",
      'verbatim "k"',
    ),
  );
  fc.assert(
    fc.property(lines, (some) => holds(some.join("\n"))),
    { seed: 14, numRuns: 2000 },
  );
}, 60_000);

test("nothing is made of a text that must not be rewritten", () => {
  for (const text of ['craft "A" edition 2\n\n\n\npack  \n', 'craft "A"\npack\n cells 6\u0000\n'])
    expect(formatted(parse(text), catalogue)).toBe(text);
});

test("however long a text is, the time is in proportion", () => {
  const texts: readonly ((n: number) => string)[] = [
    (n) => `craft "A"\npack\n${"# c\n".repeat(n)}  cells 6\n`,
    (n) => `craft "A"\npack\n${"# c\n\n".repeat(n)}  cells 6\n`,
    (n) => `craft "A"\n${"pack\n\n".repeat(n)}`,
    (n) => `craft "A"\nmotors\n${"  motor1 place rear-left  direction clockwise # c\n".repeat(n)}`,
    (n) => `craft "A"\npack\n  ${"a".repeat(n)} 6\n${"  cells 6\n".repeat(n)}`,
    (n) => `craft "A"\n${"<<<<<<< a\n=======\n>>>>>>> b\n".repeat(n)}`,
    (n) => `dialect "A"\npack\n${'  "holds {c}" capacity {c} mAh\n'.repeat(n)}`,
  ];
  const formatting = (text: string) => {
    const tree = parse(text);
    return () => formatted(tree, catalogue);
  };
  for (const make of texts) {
    formatting(make(500))();
    expectGrowth(16, { small: formatting(make(2000)), large: formatting(make(16_000)) }, make(1));
  }
}, 60_000);
