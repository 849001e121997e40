import { expect, test } from "vitest";
import { definitionsAt } from "../../../shared/ide/editor/definition.ts";
import { atCursor } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;
const habits = 'layer "Habits"\nmodes\n  arm when TL is down\nrates\n  roll slope 100 deg/s end 600 deg/s\n';

/** `file:line`, from 1, of every place that the word at the cursor leads to. */
function leadsTo(text: string): string[] {
  const { workspace, file, position } = atCursor(text, { "habits.fettle": habits });
  return definitionsAt(workspace, file, position).map(
    (each) => `${each.file.slice("/shed/".length)}:${each.range.start.line + 1}`,
  );
}

test("a word leads to the line that defines it", () => {
  expect(leadsTo(craft("modes\n  level when T|R is mid\n"))).toEqual(["wheel.fettle:9"]);
  expect(leadsTo(craft("modes\n  level when TR is mi|d\n"))).toEqual(["wheel.fettle:9"]);
  expect(leadsTo(craft("modes\n  recorder when ar|m\n"))).toEqual(["habits.fettle:3"]);
  expect(leadsTo('craft "Jug"\nuse "habits.fet|tle"\n')).toEqual(["habits.fettle:1"]);
  expect(leadsTo(craft("rates\n  ro|ll end 700 deg/s\n"))).toEqual(["habits.fettle:5", "jug.fettle:6"]);
  expect(leadsTo(craft("pack\n  ce|lls 4\n  cells 6\n"))).toEqual(["jug.fettle:7"]);
  expect(leadsTo(craft("nonsense\n  he|re 4\n"))).toEqual([]);
});

test("a line that names a file of the board leads to the start of that file", () => {
  const board = (line: string) => `craft "Jug"\n\nboard\n  ${line}\n`;
  expect(leadsTo(board('dialect "habits.fet|tle"'))).toEqual(["habits.fettle:1"]);
  expect(leadsTo(board('text "|habits.fettle"'))).toEqual(["habits.fettle:1"]);
  expect(leadsTo(board('text "|gone.txt"'))).toEqual([]);
  expect(leadsTo(board('model "habits.fet|tle"'))).toEqual([]);
});
