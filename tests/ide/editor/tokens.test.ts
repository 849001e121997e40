import { expect, test } from "vitest";
import { tokensOf } from "../../../shared/ide/editor/tokens.ts";
import { atCursor } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;

test("words are coloured by their meaning, without overlaps", () => {
  const text = craft('modes\n  arm when TL is down # so\n  drop level\nverbatim "kiln"\n  | as it is\n');
  const { workspace, file } = atCursor(`|${text}`);
  const lines = text.split("\n");
  const tokens = tokensOf(workspace.script(file)!, workspace.catalogue);
  expect(tokens.map(({ kind, line, start, end }) => `${kind} ${lines[line]!.slice(start, end)}`)).toEqual([
    "header craft",
    'string "Jug"',
    "keyword use",
    'string "wheel.fettle"',
    "keyword use",
    'string "habits.fettle"',
    "section modes",
    "mode arm",
    "keyword when",
    "control TL",
    "keyword is",
    "position down",
    "comment # so",
    "keyword drop",
    "setting level",
    "section verbatim",
    'string "kiln"',
    "kept | as it is",
  ]);
  tokens.forEach((token, i) => {
    const before = tokens[i - 1];
    if (before?.line === token.line) expect(token.start).toBeGreaterThanOrEqual(before.end);
  });
});
