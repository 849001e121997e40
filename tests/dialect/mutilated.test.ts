/** Whatever stands in a dialect, it is read without an exception, and each issue has a place in the file. */
import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { readDialect } from "../../shared/dialect/read-dialect.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { parse } from "../../shared/syntax/parse.ts";
import { expectGrowth } from "../growth.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const SOUND = readFileSync(new URL("findings/sound.txt", import.meta.url), "utf8")
  .split(/^=== .*\n/m)
  .slice(1);
const RUNS = { seed: 13, numRuns: 500 };

function holds(text: string): void {
  const tree = parse(text);
  const { issues } = readDialect("/kiln.fettle", tree, catalogue);
  for (const { span, message, fixes = [], related = [] } of issues) {
    expect(message).not.toMatch(/undefined|null|NaN|\[object/);
    const places = [span, ...related.map((each) => each.span)];
    for (const { line, start, end } of places) {
      expect(start).toBeLessThanOrEqual(end);
      expect(end).toBeLessThanOrEqual(tree.lines[line]!.text.length);
      expect(start).toBeGreaterThanOrEqual(0);
    }
    for (const { edits } of fixes)
      for (const { range } of edits) {
        expect(range.start.character).toBeLessThanOrEqual(range.end.character);
        expect(range.end.character).toBeLessThanOrEqual(tree.lines[range.end.line]!.text.length);
      }
  }
  findingsOf(core.at(memoryFiles({ "/kiln.fettle": text })), "/kiln.fettle");
}

const sound = fc.constantFrom(...SOUND);
const dialect = fc.tuple(sound, sound).map(([a, b]) => `dialect "Kiln"\n${a}${b}`);
const place = fc.double({ min: 0, max: 1, noNaN: true });

test("a dialect of which a piece is missing", () => {
  fc.assert(
    fc.property(dialect, place, fc.nat(40), (text, at, length) => {
      const from = Math.floor(at * text.length);
      holds(text.slice(0, from) + text.slice(from + length));
    }),
    RUNS,
  );
});

test("a dialect with a piece of another one in it", () => {
  fc.assert(
    fc.property(dialect, sound, place, place, fc.nat(40), (text, other, at, from, length) => {
      const [to, begin] = [Math.floor(at * text.length), Math.floor(from * other.length)];
      holds(text.slice(0, to) + other.slice(begin, begin + length) + text.slice(to));
    }),
    RUNS,
  );
});

test("a dialect with a character in another one's place", () => {
  const sign = fc.constantFrom(..."{}\"'\\#:=,.+-*/^()|\t 0a\u00a0\u{1F3FA}$[]?");
  fc.assert(
    fc.property(dialect, fc.array(fc.tuple(place, sign), { minLength: 1, maxLength: 6 }), (text, changes) => {
      let changed = text;
      for (const [at, to] of changes) {
        const i = Math.floor(at * changed.length);
        changed = changed.slice(0, i) + to + changed.slice(i + 1);
      }
      holds(changed);
    }),
    RUNS,
  );
});

test("lines of a dialect in any order", () => {
  const lines = SOUND.flatMap((each) => each.trimEnd().split("\n"));
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...lines), { maxLength: 30 }), (some) => {
      holds(`dialect "Kiln"\n${some.join("\n")}\n`);
    }),
    RUNS,
  );
});

test("words of a dialect in any order", () => {
  const words = [...new Set(SOUND.join(" ").split(/\s+/))];
  const line = fc.array(fc.constantFrom(...words), { minLength: 1, maxLength: 9 }).map((each) => `  ${each.join(" ")}`);
  const section = fc
    .tuple(fc.constantFrom("text", "codes", "pack", "modes", "osd", "rates", "adjust", "motors"), fc.array(line))
    .map(([name, some]) => [name, ...some].join("\n"));
  fc.assert(
    fc.property(fc.array(section, { maxLength: 4 }), (some) => holds(`dialect "Kiln"\n${some.join("\n")}\n`)),
    RUNS,
  );
});

test("any text at all below a header", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 300 }), (text) => holds(`dialect "Kiln"\npack\n  ${text}`)),
    RUNS,
  );
});

function lines(n: number, line: (i: number) => string): string {
  return Array.from({ length: n }, (_, i) => line(i)).join("\n");
}

/** Each grows with its number of lines, and none faster than that. */
const LARGE: Readonly<Record<string, (n: number) => string>> = {
  "lines that begin unlike": (n) => `dialect "K"\npack\n${lines(n, (i) => `  "pot ${i} holds {c}"  capacity {c} mAh`)}`,
  "lines that begin alike": (n) => `dialect "K"\npack\n${lines(n, (i) => `  "pot {c} of ${i}"  capacity {c} mAh`)}`,
  "the same line again": (n) => `dialect "K"\npack\n${lines(n, () => `  "pot {c}"  capacity {c} mAh`)}`,
  "lines that are all beaten": (n) =>
    `dialect "K"\npack\n  "pot{c}"  capacity {c} mAh\n${lines(n, (i) => `  "pot${i}"  capacity 1100 mAh`)}`,
  "words of one code": (n) =>
    `dialect "K"\ncodes\n${lines(n, (i) => `  w  words a${i} lipo`)}\npack\n  "pot {k:w}"  chemistry {k}`,
  "codes that name each other": (n) => `dialect "K"\ncodes\n${lines(n, (i) => `  a${i}  list a${i + 1} by ","`)}`,
  headings: (n) => `dialect "K"\npack\n${lines(n, (i) => `  under "row ${i}"\n  "pot {c}"  capacity {c} mAh`)}`,
  "slots in one line": (n) =>
    `dialect "K"\npack\n  "${lines(Math.min(n, 10_000), (i) => `{a${i % 7}} `).replaceAll("\n", "")}"  cells 4`,
  "quotes in one line": (n) => `dialect "K"\npack\n  ${'"\\"'.repeat(n)}`,
  faults: (n) => `dialect "K"\npack\n${lines(n, (i) => `  "pot ${i} {c"  capasity {c} mAh`)}`,
};

test.each(Object.keys(LARGE))("reading takes time in proportion: %s", (name) => {
  const reading = (n: number) => {
    const tree = parse(LARGE[name]!(n));
    return () => readDialect("/kiln.fettle", tree, catalogue);
  };
  reading(200)();
  // Four times the lines; were it their square, it would be sixteen times.
  expectGrowth(9, { small: reading(750), large: reading(3000) });
});

test("ten thousand lines are read, and a second set takes no more of them than it can", () => {
  const many = lines(10_000, (i) => `  "pot ${i} holds {c}"  roll slope {c} deg/s`);
  const headings = lines(10_000, (i) => `  under "firing ${i}"`);
  const { lefts, issues } = readDialect(
    "/kiln.fettle",
    parse(`dialect "K"\nrates\n${many}\nrates-second\n${headings}`),
    catalogue,
  );
  expect(lefts).toHaveLength(30_000);
  expect(issues.map(({ code, span }) => [code, span.line])).toEqual([["syntax", 10_005]]);
});
