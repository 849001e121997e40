/** Characters that do not show: told once a line, and not where a line that was not understood tells of them. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../check.ts";

const found = (lines: string) =>
  findingsOf(workspaceOf({ "jug.fettle": `craft "Jug"\n\n${lines}` }), "jug.fettle").map(
    ({ code, message }) => `${code}: ${message}`,
  );

test("a note and a text are told of, each line once", () => {
  expect(found('board\n  # so\u202e and\u200b so\n  note "p\u0430ck"\n')).toEqual([
    "hidden-text: Right-to-left override (U+202E): text after it may show in another order than it is read. There are 2 such characters on this line. Take it out, unless you know what it is there for.",
    "hidden-text: “а” (U+0430, Cyrillic) looks like “a” and is another character. Write it with plain letters, so that it can be read and found.",
  ]);
});

test.each([
  "pack\n  c\u0435lls 4\n",
  "pack\n  cells\u00a04\n",
  "pack\n  cells 4\u200b\n",
  "pack\n  cells \u202e4\n",
  "p\u0430ck\n  cells 4\n",
  "pack\n  capacity 1300 m\u0410h\n",
  "pack\n  cells \uff14\n",
])("a line that was not understood has one finding, and not two: %j", (lines) => {
  const codes = found(lines).map((each) => each.split(":")[0]);
  expect(codes.filter((code) => code === "hidden-text")).toEqual([]);
  expect(codes).not.toEqual([]);
});

test("the action leaves the line plain, with nothing more to find", () => {
  const text = 'craft "Jug"\n\nboard\n  note "p\u0430ck\u200b is new" # so\u202e\n';
  const [finding] = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle");
  const rows = text.split("\n");
  for (const { range, text: plain } of finding!.fixes[0]!.edits.toReversed()) {
    const row = rows[range.start.line]!;
    rows[range.start.line] = row.slice(0, range.start.character) + plain + row.slice(range.end.character);
  }
  expect(rows[3]).toBe('  note "pack is new" # so');
  expect(findingsOf(workspaceOf({ "jug.fettle": rows.join("\n") }), "jug.fettle")).toEqual([]);
});
