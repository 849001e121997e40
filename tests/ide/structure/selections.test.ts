/** Selections that grow from a position, as text. */
import { expect, test } from "vitest";
import { selectionsAt } from "../../../shared/ide/structure/selections.ts";
import { atCursor } from "../cursor.ts";
import { casesIn, keepIfAsked } from "./cases.ts";

/** The selections at the cursor: what is selected of a line, and of several lines which, from 1. */
function selected(text: string): string[] {
  const { workspace, file, position } = atCursor(text);
  const script = workspace.script(file)!;
  return selectionsAt(script, workspace.catalogue, position).map(({ start, end }) => {
    const said = script.tree.lines[start.line]!.text.slice(start.character, end.character);
    return start.line === end.line ? `‹${said}›` : `lines ${start.line + 1} to ${end.line + 1}`;
  });
}

const cases = casesIn("selections.txt");
keepIfAsked("selections.txt", cases, (given) => selected(given).join("\n"));

test.each(cases)("$title", ({ given, expected }) => {
  expect(selected(given).join("\n")).toBe(expected);
});
