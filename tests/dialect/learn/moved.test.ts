import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { movedLines } from "../../../shared/dialect/learn/moved-lines.ts";
import { expectWithin } from "../../growth.ts";

const blocks = readFileSync(new URL("moved.txt", import.meta.url), "utf8")
  .split(/\n{2,}/)
  .slice(1)
  .map((block) => block.trimEnd().split("\n"));

describe.each(blocks)("%#", (...block) => {
  const cut = block.indexOf("=");
  const lines = block.slice(0, cut);
  const side = (without: string) =>
    lines
      .filter((line) => !line.startsWith(without))
      .map((line) => `${line.slice(2)}\n`)
      .join("");

  test(lines.join(" | "), () => {
    const found = movedLines(side("+"), side("-")).map(
      ({ before, after }) =>
        `${before ? `${before.line + 1}: ${before.text}` : "new"} -> ${after ? `${after.line + 1}: ${after.text}` : "gone"}`,
    );
    expect(found.length === 0 ? ["nothing"] : found).toEqual(block.slice(cut + 1));
  });
});

test("line ends, blanks at the end and a mark of the byte order are no difference", () => {
  expect(movedLines("a \r\nb\r\n", "\uFEFFa\nb")).toEqual([]);
});

const texts = fc.array(fc.constantFrom("a", "b", "c", "a 1", "a 2", "b 1", ""), { maxLength: 14 });

test("what is named turns the one text into the other, and nothing that stayed is named", () => {
  fc.assert(
    fc.property(texts, texts, (before, after) => {
      const moved = movedLines(before.join("\n"), after.join("\n"));
      // As lines are counted: a last one without text is none.
      const [a, b] = [before, after].map((lines) => (lines.at(-1) === "" ? lines.slice(0, -1) : lines));
      const gone = new Set(moved.flatMap(({ before }) => before?.line ?? []));
      const came = new Set(moved.flatMap(({ after }) => after?.line ?? []));
      expect(a!.filter((_, i) => !gone.has(i))).toEqual(b!.filter((_, i) => !came.has(i)));
      for (const { before: x, after: y } of moved) {
        expect(x?.text).toBe(x ? a![x.line] : undefined);
        expect(y?.text).toBe(y ? b![y.line] : undefined);
        expect(x?.text).not.toBe(y?.text);
      }
    }),
  );
});

test("two texts of 50,000 lines with one other line take under a second", () => {
  const lines = Array.from({ length: 50_000 }, (_, i) => `flag ${i % 400} none`);
  const changed = lines.toSpliced(25_000, 1, "flag 200 sail").toSpliced(100, 0, "here");
  const [before, after] = [lines.join("\n"), changed.join("\n")];
  expect(movedLines(before, after)).toHaveLength(2);
  expectWithin(1000, () => movedLines(before, after));
});
