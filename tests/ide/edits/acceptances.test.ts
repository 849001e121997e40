/** Notes that accept a finding, offered where it stands. */
import { expect, test } from "vitest";
import { acceptancesAt } from "../../../shared/ide/edits/acceptances.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../../rules/check.ts";
import { atCursor } from "../cursor.ts";

/** What is offered at the cursor, and the text after each. */
function offeredAt(marked: string): (readonly [title: string, text: string])[] {
  const { workspace, file, position: at } = atCursor(marked);
  const text = marked.replace("|", "");
  return acceptancesAt(workspace, file, { start: at, end: at }).map(({ title, edits: [edit] }) => {
    const lines = text.split("\n");
    lines[edit!.range.start.line] = edit!.text + lines[edit!.range.start.line]!;
    return [title, lines.join("\n")];
  });
}

test("on its line, in its section and in its file, with the reason left to be written", () => {
  const offered = offeredAt('craft "Jug"\n\npack "Old"\n\n  # the heavy one\n  cells 9|9\n');
  expect(offered).toEqual([
    [
      "Accept out-of-range on this line",
      'craft "Jug"\n\npack "Old"\n\n  # the heavy one\n  # allow out-of-range: \n  cells 99\n',
    ],
    [
      "Accept out-of-range in all of pack/Old",
      'craft "Jug"\n\n# allow out-of-range: \npack "Old"\n\n  # the heavy one\n  cells 99\n',
    ],
    [
      "Accept out-of-range in this file",
      '# allow out-of-range: \ncraft "Jug"\n\npack "Old"\n\n  # the heavy one\n  cells 99\n',
    ],
  ]);
  for (const [, text] of offered) {
    const after = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle").map(({ code }) => code);
    expect(after).toEqual(["allow-unexplained"]);
  }
});

test("at a section's name in the section and in the file, and once where several on a line are of one code", () => {
  expect(offeredAt('craft "Jug"\nmod|es\n  level when always\n').map(([title]) => title)).toEqual([
    "Accept arm-missing in all of modes",
    "Accept arm-missing in this file",
  ]);
  const { workspace, file } = atCursor('craft "Jug"\nrates\n  roll slope 9999 deg/s end 9999 deg/s\n');
  const line = { start: { line: 2, character: 0 }, end: { line: 2, character: 40 } };
  expect(findingsOf(workspace, file).filter(({ code }) => code === "out-of-range")).toHaveLength(2);
  expect(acceptancesAt(workspace, file, line).filter(({ title }) => title.includes("out-of-range"))).toHaveLength(3);
});

test("none of what cannot be accepted, nor for a stretch of several lines", () => {
  expect(offeredAt('craft "Jug"\npack\n  cel|ls 4.5.6\n')).toEqual([]);
  const { workspace, file } = atCursor('craft "Jug"\npack\n  cells 9|9\n');
  const range = { start: { line: 0, character: 0 }, end: { line: 2, character: 9 } };
  expect(acceptancesAt(workspace, file, range)).toEqual([]);
});
