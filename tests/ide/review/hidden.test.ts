/** Characters that do not show, or show as others: `tests/fixtures/hidden` holds what is told, and what is not. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { hiddenIn, shownText } from "../../../shared/ide/review/hidden.ts";

const written = (line: string) =>
  line.replace(/\\u\{([0-9a-f]+)\}/g, (_, code) => String.fromCodePoint(Number.parseInt(code, 16)));
const lines = (name: string) =>
  readFileSync(inProject("tests/fixtures/hidden", name), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("# "));

test("each is made visible where it stands", () => {
  const cases = lines("told.txt");
  const texts = cases.filter((line) => !line.startsWith("= "));
  expect(texts.length).toBe(cases.length / 2);
  expect(texts.map((text) => `${text}\n= ${shownText(written(text))}`)).toEqual(
    texts.map((text, at) => `${text}\n${cases[2 * at + 1]}`),
  );
});

test("what a language, a unit or a picture needs is not told", () => {
  const told = lines("innocent.txt").filter((line) => hiddenIn(written(line)).length > 0);
  expect(told.map((line) => `${line} → ${shownText(written(line))}`)).toEqual([]);
});

test("each is listed with its line, its columns and what it is", () => {
  expect(hiddenIn("pack\n  c\u0435lls 4 # so\u202e\n")).toEqual([
    {
      line: 1,
      start: 3,
      end: 4,
      kind: "look-alike",
      words: "“е” (U+0435, Cyrillic) looks like “e” and is another character",
    },
    {
      line: 1,
      start: 14,
      end: 15,
      kind: "direction",
      words: "right-to-left override (U+202E): text after it may show in another order than it is read",
    },
  ]);
});

test("any text is read without a fault, and what is listed lies in it", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const rows = text.replace(/^\ufeff/, "").split(/\r\n|\r|\n/);
      for (const { line, end } of hiddenIn(text)) expect(end).toBeLessThanOrEqual(rows[line]!.length);
      expect(typeof shownText(text)).toBe("string");
    }),
  );
});

test("in a text of another script words may well consist of letters that look like Latin ones", () => {
  const notes = '# хор и ветер\nlayer "Kiln"\n\n# сор\nboard\n  note "Роса"\n';
  expect(hiddenIn(notes)).toEqual([]);
  expect(hiddenIn(notes.replace("хор и ветер", "wind")).map(({ line }) => line)).toContain(5);
  // A word of two scripts is told all the same.
  expect(hiddenIn(notes.replace("Kiln", "Kіln")).map(({ line, start }) => [line, start])).toEqual([[1, 8]]);
});
