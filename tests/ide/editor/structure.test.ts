/** The structure of a script in the editor: outline, folds, links. */
import { expect, test } from "vitest";
import { foldsOf } from "../../../shared/ide/editor/folding.ts";
import { linksOf } from "../../../shared/ide/editor/links.ts";
import { symbolsOf } from "../../../shared/ide/editor/symbols.ts";
import { atCursor } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;

test("the outline, what folds, what links", () => {
  const { workspace, file } = atCursor(craft('# two\n# notes\npack "old"\n  cells 4\n  cells 6\n\nosd\n  grid pal\n'));
  const script = workspace.script(file)!;
  const [jug] = symbolsOf(script, workspace.catalogue);
  expect(jug?.name).toBe("Jug");
  expect(
    jug?.children.map(({ name, children }) => [name, children.map((each) => `${each.name} ${each.detail}`)]),
  ).toEqual([
    ["pack old", ["cells 4", "cells 6"]],
    ["osd", ["grid pal"]],
  ]);
  expect(foldsOf(script)).toEqual([
    { startLine: 1, endLine: 2, kind: "imports" },
    { startLine: 4, endLine: 5, kind: "comment" },
    { startLine: 6, endLine: 8, kind: "region" },
    { startLine: 10, endLine: 11, kind: "region" },
  ]);
  expect(linksOf(workspace, file)).toMatchObject([{ file: "/shed/wheel.fettle", tooltip: "handset “Wheel”" }]);
});

test("the files of the board are links where they are there", () => {
  const { workspace, file } = atCursor('craft "Jug"\n\nboard\n  dialect "wheel.fettle"\n  text "gone.txt"\n');
  expect(linksOf(workspace, file)).toEqual([
    {
      range: { start: { line: 3, character: 10 }, end: { line: 3, character: 24 } },
      file: "/shed/wheel.fettle",
      tooltip: "the board's dialect",
    },
  ]);
});
