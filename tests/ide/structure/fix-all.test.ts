/** All certain repairs of a script: what it becomes. What is doubtful stays as it is. */
import { describe, expect, test } from "vitest";
import { textWith } from "../../../shared/ide/context/trial.ts";
import { certainFixesOf } from "../../../shared/ide/structure/fix-all.ts";
import { finish } from "../../../shared/text/steps.ts";
import { atCursor } from "../cursor.ts";
import { casesIn, filesIn, keepIfAsked } from "./cases.ts";

function repaired(text: string, more: Record<string, string> = {}): string {
  // The sign before it is the cursor, so that a “|” of the script stays.
  const { workspace, file } = atCursor(`|${text}`, more);
  return textWith(workspace.script(file)!, finish(certainFixesOf(workspace, file)));
}

function outcome(given: string): string {
  const { "jug.fettle": text, ...more } = filesIn(given);
  const after = repaired(text!, more);
  return after === text ? "as it is" : after.trimEnd();
}

const cases = casesIn("fix-all.txt");
keepIfAsked("fix-all.txt", cases, outcome);

test.each(cases)("$title", ({ given, expected }) => {
  expect(outcome(given)).toBe(expected);
});

describe("of every case", () => {
  test.each(cases)("$title: once is enough", ({ given }) => {
    const { "jug.fettle": text, ...more } = filesIn(given);
    const once = repaired(text!, more);
    expect(repaired(once, more)).toBe(once);
  });
});

test("line ends stay as they are, also of a line that is divided", () => {
  const text = 'craft "Jug"\r\n\r\npack\r\n  cells 6 capacity 1100 mAh\r\n  warn-at: 3.5 V/cell\r\n';
  expect(repaired(text)).toBe(
    'craft "Jug"\r\n\r\npack\r\n  cells 6\r\n  capacity 1100 mAh\r\n  warn-at 3.5 V/cell\r\n',
  );
  // The last line has none of its own that the new line could have.
  expect(repaired('craft "Jug"\r\n\r\npack\r\n  cells 6 capacity 1100 mAh')).toBe(
    'craft "Jug"\r\n\r\npack\r\n  cells 6\r\n  capacity 1100 mAh',
  );
});

test("each edit changes no more of its line than it must", () => {
  const { workspace, file } = atCursor('craft "Jug"\n\npack\n  cells: 6 # six\n  capacity 1100 mAh\n');
  expect(finish(certainFixesOf(workspace, file))).toEqual([
    { range: { start: { line: 3, character: 7 }, end: { line: 3, character: 8 } }, text: "" },
  ]);
});
