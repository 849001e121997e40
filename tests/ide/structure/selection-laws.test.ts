/** What holds of selections at any position of any text. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { selectionsAt } from "../../../shared/ide/structure/selections.ts";
import { comparePositions, type Position, type Range } from "../../../shared/syntax/span.ts";
import { atCursor } from "../cursor.ts";

const examples = join(import.meta.dirname, "../../../examples");
const texts = readdirSync(examples, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".fettle"))
  .map((name) => readFileSync(join(examples, name), "utf8"));

const isInside = (outer: Range, inner: Range) =>
  comparePositions(outer.start, inner.start) <= 0 && comparePositions(inner.end, outer.end) <= 0;

function expectLaws(text: string, at: Position): void {
  const { workspace, file } = atCursor(text.replaceAll("|", "!"));
  const script = workspace.script(file)!;
  const { lines } = script.tree;
  const ranges = selectionsAt(script, workspace.catalogue, at);
  const line = Math.min(at.line, lines.length - 1);
  const clamped = { line, character: Math.min(at.character, lines[line]!.text.length) };
  const end = { line: lines.length - 1, character: lines.at(-1)!.text.length };
  expect(ranges.at(-1)).toEqual({ start: { line: 0, character: 0 }, end });
  ranges.forEach((range, i) => {
    expect(isInside(range, { start: clamped, end: clamped }), "holds the position").toBe(true);
    expect(range.end.character).toBeLessThanOrEqual(lines[range.end.line]!.text.length);
    const next = ranges[i + 1];
    if (next)
      expect([isInside(next, range), isInside(range, next)], "lies strictly inside the next").toEqual([true, false]);
  });
}

const place = fc.record({ line: fc.nat(150), character: fc.nat(90) });

test("selections of the examples nest and hold the position", () => {
  fc.assert(fc.property(fc.constantFrom(...texts), place, expectLaws), { seed: 13, numRuns: 1500 });
});

test("so do those of texts with stretches cut out, doubled and put in another place", () => {
  const mutilated = fc
    .tuple(fc.constantFrom(...texts), fc.array(fc.tuple(fc.nat(2000), fc.nat(60), fc.nat(2000)), { maxLength: 8 }))
    .map(([text, cuts]) =>
      cuts.reduce((made, [from, length, to]) => {
        const cut = made.slice(from, from + length);
        const rest = made.slice(0, from) + made.slice(from + length);
        return rest.slice(0, to) + cut + rest.slice(to) + cut;
      }, text),
    );
  fc.assert(fc.property(mutilated, place, expectLaws), { seed: 13, numRuns: 700 });
});

test("and those of any text", () => {
  const line = fc.string({ unit: fc.constantFrom(..."ab (\"'{#:},=-12\tché\r") });
  const text = fc.array(line, { maxLength: 12 }).map((lines) => lines.join("\n"));
  fc.assert(fc.property(text, place, expectLaws), { seed: 13, numRuns: 700 });
});
