/** What a line end that is typed brings: case by case, and never another meaning. */
import { readFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { typedEdits } from "../../../shared/ide/format/format.ts";
import { madePair } from "../compare/made-pairs.ts";
import { edited, meaningOf, scriptOf } from "./meaning.ts";

const HEADER = 'craft "Jug"\n\n';

const cases = readFileSync(new URL("typed.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((text) => {
    const [title = "", ...lines] = text.split("\n");
    const [given = "", below = ""] = lines.join("\n").split(/^---\n/m);
    return { title, given, expected: below.trim() === "same" ? given : below };
  });

/** The line with the cursor, and the text without its mark: the last mark that stands for itself. */
function placed(text: string): { readonly text: string; readonly line: number } {
  const lines = (HEADER + text).trimEnd().split("\n");
  const line = lines.findLastIndex((each) => /^\s*\|/.test(each) && !each.includes("|shelf"));
  return { text: `${lines.with(line, lines[line]!.replace("|", "")).join("\n")}\n`, line };
}

test.each(cases)("$title", ({ given, expected }) => {
  const { text, line } = placed(given);
  expect(edited(text, typedEdits(scriptOf(text), { line, character: 2 }))).toBe(placed(expected).text);
});

test("wherever it is typed, what the script means stays, and the line of the cursor too", () => {
  fc.assert(
    fc.property(fc.nat(2 ** 31 - 1), fc.double({ min: 0, max: 0.999, noNaN: true }), (seed, place) => {
      const { texts, mine } = madePair(seed);
      const lines = texts[mine]!.split("\n");
      const line = 1 + Math.floor(place * lines.length);
      const text = lines.toSpliced(line, 0, "  ").join("\n");
      const edits = typedEdits(scriptOf(text), { line, character: 2 });
      const after = edited(text, edits);
      expect(isDeepStrictEqual(meaningOf(text), meaningOf(after)), text).toBe(true);
      expect(edits.filter((edit) => edit.range.start.line === line)).toEqual([]);
      expect(after.split("\n")).toHaveLength(text.split("\n").length);
    }),
    { seed: 14, numRuns: 300 },
  );
}, 60_000);

test("no line is above the first one, and none below the last", () => {
  const script = scriptOf('craft "Jug"\n');
  for (const line of [0, 1, 2, 99]) expect(typedEdits(script, { line, character: 0 })).toEqual([]);
});
