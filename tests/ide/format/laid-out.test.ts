/** Layout case by case: an untidy script, and the same as it is laid out. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { formatted, lineEndsOf } from "../../../shared/ide/format/format.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { brokenLaw } from "./laws.ts";
import { catalogue } from "./meaning.ts";

const HEADER = 'craft "Jug"\n\n';

interface Case {
  readonly title: string;
  readonly untidy: string;
  readonly laid: string;
}

const cases = readFileSync(new URL("laid-out.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((text): Case => {
    const [title = "", ...lines] = text.split("\n");
    const body = lines.join("\n").replaceAll("→", "\t").replaceAll("␣", " ");
    const [untidy = "", below = ""] = body.split(/^---\n/m);
    const isWhole = title.endsWith(")");
    const whole = (part: string) => (isWhole ? part : HEADER + part);
    const given = title.includes("no end") ? untidy.trimEnd() : untidy;
    const expected = below.replace(/\n+$/, "\n");
    return { title, untidy: whole(given), laid: expected === "same\n" ? whole(given) : whole(expected) };
  });

test.each(cases)("$title", ({ untidy, laid }) => {
  expect(formatted(parse(untidy), catalogue)).toBe(laid);
  expect(brokenLaw(untidy)).toBeNull();
});

test.each([
  ["\r\n", "CRLF"],
  ["\r", "CR"],
  ["\n", "LF"],
])("line ends stay: %j", (end, name) => {
  const [untidy, laid] = ['\uFEFFcraft  "Jug"\npack\n cells 6', '\uFEFFcraft "Jug"\n\npack\n  cells  6\n'];
  const tree = parse(untidy.replaceAll("\n", end));
  expect(formatted(tree, catalogue)).toBe(laid.replaceAll("\n", end));
  expect(lineEndsOf(tree)).toEqual({ mixed: false, name });
});

test("of mixed line ends the most frequent one is written, but not in an unresolved merge", () => {
  const tree = parse('craft "Jug"\r\n\r\npack\n  cells  6\r\n<<<<<<< a\n=======\n>>>>>>> b\n  capacity  5 mAh\n');
  expect(lineEndsOf(tree)).toEqual({ mixed: true, name: "CRLF" });
  expect(formatted(tree, catalogue)).toBe(
    'craft "Jug"\r\n\r\npack\r\n  cells     6\r\n<<<<<<< a\n=======\n>>>>>>> b\n  capacity  5 mAh\r\n',
  );
});

test("of a file without a line nothing is left", () => {
  for (const text of ["", "\n", " \t", "\n\n  \n"]) expect(formatted(parse(text), catalogue)).toBe("");
  expect(formatted(parse("\uFEFF\n\n"), catalogue)).toBe("\uFEFF");
});
