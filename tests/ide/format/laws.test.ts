/** Layout on texts made at random: it keeps what they mean, and laid out again they stay. */
import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { formatted } from "../../../shared/ide/format/format.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { madePair } from "../compare/made-pairs.ts";
import { brokenLaw, brokenRange } from "./laws.ts";
import { catalogue } from "./meaning.ts";

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
const place = fc.double({ min: 0, max: 0.999, noNaN: true });

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

const INSERTED = [
  ..."\t \u00a0\ufeff\u200b#\"'|\\{}=:,()-+.%µ0aZ\r\n",
  "\r\n",
  "\n\n\n",
  "\n<<<<<<< ours\n",
  "\n=======\n",
  "\n>>>>>>> theirs\n",
  "\n||||||| base\n",
  "  # allow unusual-value: so\n",
  "\u0000",
  '\nuse "x.fettle"\n',
  "\npack\n",
  "\n  drop all\n",
  '\nverbatim "kiln"\n  |  kept \n',
  " edition 2",
];

/** A way to spoil a text, at a place between 0 and 1. */
const spoil = fc
  .tuple(fc.nat(5), place, place, fc.constantFrom(...INSERTED))
  .map(([kind, a, b, sign]) => (text: string): string => {
    const [at, to] = [Math.floor(a * text.length), Math.floor(b * text.length)];
    const lines = text.split("\n");
    const [line, other] = [Math.floor(a * lines.length), Math.floor(b * lines.length)];
    switch (kind) {
      case 0:
        return text.slice(0, at) + text.slice(Math.min(text.length, at + Math.ceil(b * 30)));
      case 1:
        return lines.toSpliced(other, 0, lines[line]!).join("\n");
      case 2:
        return text.slice(0, at);
      case 3:
        return lines.with(line, lines[line]!.replace(/^[ \t]+/, b < 0.5 ? "" : "\t  ")).join("\n");
      default:
        return text.slice(0, to) + sign + text.slice(to);
    }
  });

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
