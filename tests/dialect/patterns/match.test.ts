/** Matching board lines and filling patterns. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Dialect, Pattern } from "../../../shared/dialect/dialect.ts";
import { fillPattern } from "../../../shared/dialect/patterns/fill.ts";
import { indexOf } from "../../../shared/dialect/patterns/index-of-lefts.ts";
import { lineForm } from "../../../shared/dialect/patterns/line-form.ts";
import { matchPattern } from "../../../shared/dialect/patterns/match.ts";
import { dialectOf } from "../reading/long-texts.ts";

/** `t` may be empty, `q` stands within quotes, `h` is in base 16; all others are a character or more. */
function patternOf(text: string): Pattern {
  const codes = `codes\n  free text\n  said text within '"' escape '\\'\n  hex number 0 to 255 base 16\n`;
  const coded = text.replaceAll("{t}", "{t:free}").replaceAll("{q}", "{q:said}").replaceAll("{h}", "{h:hex}");
  return dialectOf(`${codes}osd\n  '${coded}'  pilot-name "x"\n`).lefts[0]!.pattern;
}

function shown(pattern: string, line: string, blanks: "loose" | "exact" = "loose"): string | null {
  const match = matchPattern(patternOf(pattern), line, blanks);
  if (!match) return null;
  // Columns are those of the line as it stands.
  for (const { text, start, end } of match.slots.values()) expect(line.slice(start, end)).toBe(text);
  return [...match.slots].map(([name, { text }]) => `${name}=${text}`).join(" ");
}

describe("a line", () => {
  test.each([
    ["a {x} b {y}", "a 1 b 2", "x=1 y=2"],
    ["a {x} b {y}", "  a   1\tb  2  ", "x=1 y=2"],
    ["a {x} b {y}", "a 1 b", null],
    ["a {x} b {y}", "a  b 2", null],
    ["a {x} b {y}", "a 1 2 b 3 b 4", "x=1 2 y=3 b 4"],
    ["a {x}b", "a b", null],
    ["a {x}b", "a bb", "x=b"],
    ["a {x};", "a 1;;", null],
    ["a {t} b", "a b", "t="],
    ["a {t} b", "a  b", "t="],
    ["a {t} b", "a x  y b", "t=x  y"],
    ["a {t}", "a", "t="],
    ["a {t}", "a  ", "t="],
    ["a {x}", "a ", null],
    ["{t} a", "a", "t="],
    ["{t} a", "x a", "t=x"],
    ["{x}", " one two ", "x=one two"],
    ["a", " a ", ""],
    ["a", "ab", null],
    ["a {q} b", 'a "x \\" b" b', 'q="x \\" b"'],
    ["a {q} b", 'a "x', null],
    ["a {q}{x}", 'a "x"y', 'q="x" x=y'],
    ["a {q} b", "a x b", "q=x"],
    ["{x}-{x}", "1-1", "x=1"],
    ["{x}-{x}", "1-2", null],
    ["{h}-{h}", "0a-0A", "h=0a"],
    ["a{tab}{x}", "a\t1", "x=1"],
    ["a{tab}{x}", "a \t 1", "x=1"],
    ["a{tab}{x}", "a 1", null],
    ["{x}{tab}b", "a b\tb", "x=a b"],
    ["{{{x}}", "{1}", "x=1"],
    ["x{y}aaaaaaaaaaaaaaaaaaaaaaaaaaaaab", `x1${"a".repeat(40)}b`, `y=1${"a".repeat(11)}`],
  ])("%s / %s", (pattern, line, expected) => expect(shown(pattern, line)).toBe(expected));

  test.each([
    ["a {x}", "a  1", "x= 1"],
    ["a {x}", " a 1", null],
    ["a{tab}{x}", "a 1", null],
    ["a {x} ", "a 1 ", "x=1"],
    ["a {t}", "a ", "t="],
    ["a {t}", "a", null],
  ])("with exact blanks: %s / %s", (pattern, line, expected) => expect(shown(pattern, line, "exact")).toBe(expected));
});

test("a filled pattern fits its line, with the same in its slots, where no slot holds the text behind it", () => {
  const word = fc.string({ minLength: 1, unit: fc.constantFrom("a", "1", ".", "é", "𝄞") });
  const literal = fc.constantFrom(" ", ", ", " = ", ";", " of  ");
  fc.assert(
    fc.property(
      fc.array(fc.tuple(literal, word), { minLength: 1, maxLength: 5 }),
      fc.constantFrom("loose", "exact"),
      (parts, blanks) => {
        const pattern = patternOf(`go${parts.map(([text], i) => `${text}{s${"abcde"[i]}}`).join("")}`);
        const slots = new Map(parts.map(([, text], i) => [`s${"abcde"[i]}`, text]));
        const match = matchPattern(pattern, fillPattern(pattern, slots), blanks as "loose" | "exact");
        expect(new Map([...match!.slots].map(([name, { text }]) => [name, text]))).toEqual(slots);
      },
    ),
    { seed: 13, numRuns: 1000 },
  );
});

test("a slot that is not given holds its default; without one nothing is written", () => {
  const { pattern } = dialectOf(`pack\n  "holds {c} mark {x=0}"  capacity {c} mAh\n`).lefts[0]!;
  expect(fillPattern(pattern, new Map([["c", "5"]]))).toBe("holds 5 mark 0");
  expect(() => fillPattern(pattern, new Map([["x", "5"]]))).toThrow(RangeError);
});

test("the index offers what fits by itself, in order", () => {
  const beginnings = ["", "a", "ab", "abc", "b", "a b", "aa"];
  const text = beginnings.map((beginning, i) => `  "${beginning}{c} x${i}"  capacity {c} mAh`).join("\n");
  const dialect: Dialect = dialectOf(`pack\n${text}\n`);
  const { anywhere } = indexOf(dialect);
  fc.assert(
    fc.property(fc.string({ maxLength: 6, unit: fc.constantFrom("a", "b", "c", " ") }), (line) => {
      const form = lineForm(line, "loose");
      const offered = anywhere.candidates(form).map(({ of }) => of.pattern.key);
      const plain = line.trim().replace(/ +/g, " ");
      const fit = beginnings.flatMap((each, i) => (`${plain} `.startsWith(each) ? [`${each}{c} x${i}`] : []));
      expect(offered).toEqual(fit);
    }),
  );
});
