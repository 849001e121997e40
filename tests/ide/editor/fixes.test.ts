import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fixesAt } from "../../../shared/ide/editor/fixes.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { atCursor } from "../cursor.ts";

test("a repair is offered where its finding stands, and nowhere else", () => {
  const { workspace, file } = atCursor('craft "Jug"\npack\n  warn-at 3.5\n  cells 4\n');
  const at = (line: number) => ({ start: { line, character: 11 }, end: { line, character: 11 } });
  expect(fixesAt(workspace, file, at(2))).toMatchObject([
    { title: "Write 3.5 V/cell", only: true, edits: [{ file, text: "3.5 V/cell" }] },
  ]);
  expect(fixesAt(workspace, file, at(3))).toEqual([]);
});

test("no repair writes to a file that is no UTF-8, as the bytes that cannot be shown would be lost", () => {
  const { workspace, file } = atCursor('craft "J\uFFFDg"\npack\n  warn-at 3.5\n');
  const at = { start: { line: 2, character: 11 }, end: { line: 2, character: 11 } };
  const view = { ...workspace.view, read: (path: string) => ({ ...workspace.view.read(path)!, validUtf8: false }) };
  expect(fixesAt(workspace, file, at)).toHaveLength(1);
  expect(fixesAt(makeCore(makeCatalogue()).at(view), file, at)).toEqual([]);
});
