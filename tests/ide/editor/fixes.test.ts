import { expect, test } from "vitest";
import { fixesAt } from "../../../shared/ide/editor/fixes.ts";
import { atCursor } from "../cursor.ts";

test("a repair is offered where its finding stands, and nowhere else", () => {
  const { workspace, file } = atCursor('craft "Jug"\npack\n  warn-at 3.5\n  cells 4\n');
  const at = (line: number) => ({ start: { line, character: 11 }, end: { line, character: 11 } });
  expect(fixesAt(workspace, file, at(2))).toMatchObject([
    { title: "Write 3.5 V/cell", only: true, edits: [{ file, text: "3.5 V/cell" }] },
  ]);
  expect(fixesAt(workspace, file, at(3))).toEqual([]);
});
