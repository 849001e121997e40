/** What a selection takes does not depend on how far below the text it ends, nor does the time for it. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { takenIn } from "../../../shared/ide/origin/selection.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const core = makeCore(makeCatalogue());
const text = 'craft "Jug"\n\npack\n  cells 4\n  capacity 1100 mAh\n';
const script = core.at(memoryFiles({ "jug.fettle": text })).script("jug.fettle")!;
const from = (line: number, last: number) => ({ start: { line, character: 0 }, end: { line: last, character: 2 } });

test.each([2147483647, 100_000, 6])("to line %i", (last) => {
  expect(takenIn(script, from(2, last), core.catalogue)).toEqual(takenIn(script, from(2, 4), core.catalogue));
});

test("a selection that ends before it begins, or begins below the text, takes nothing", () => {
  for (const [line, last] of [
    [4, 2],
    [90, 2147483647],
    [2147483647, 0],
  ])
    expect(takenIn(script, from(line!, last!), core.catalogue)).toMatch(/^No entry is selected/);
});
