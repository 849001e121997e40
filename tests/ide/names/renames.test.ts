/** What another name changes, on the cases of `renames.txt`; and that the old name gives the old bytes back. */
import { describe, expect, test } from "vitest";
import { renameAt, renameableAt } from "../../../shared/ide/names/rename.ts";
import type { Renamed } from "../../../shared/ide/names/renamed.ts";
import { finish } from "../../../shared/text/steps.ts";
import { workspaceOf } from "../../rules/check.ts";
import { afterRename, placeAfter, type Texts } from "./after-rename.ts";
import { casesIn } from "./cases.ts";

const cases = casesIn("renames.txt").map(({ expected, ...more }) => {
  const [name = "", ...lines] = expected.split("\n");
  return { ...more, name: name === "(empty)" ? "" : name, lines };
});

test("there are more than seventy of them", () => {
  expect(cases.length).toBeGreaterThan(70);
});

const short = (path: string) => path.slice("/shed/".length);

const linesOf = (text: string) => text.replace("\uFEFF", "").split(/\r\n|\n/);

/** What is another line than before, or why nothing is. */
function told(texts: Texts, renamed: Renamed): string[] {
  if (renamed.kind === "refused") return [`refused: ${renamed.message}`];
  const after = afterRename(texts, { ...renamed, move: null });
  const lines = Object.entries(after).flatMap(([file, text]) => {
    const [before, now] = [linesOf(texts[file]!), linesOf(text)];
    expect(now).toHaveLength(before.length);
    return now.flatMap((line, i) =>
      line === before[i] ? [] : `${short(file).replace(/\.fettle$/, "")}:${i + 1} ${line}`,
    );
  });
  const { move } = renamed;
  return [...lines.sort(), ...(move ? [`${short(move.from)} -> ${short(move.to)}`] : [])];
}

describe.each(cases)("$title", ({ texts, file, position, name, lines }) => {
  test("what it changes", () => {
    const workspace = workspaceOf(texts);
    expect(told(texts, finish(renameAt(workspace, file, position, name)))).toEqual(lines);
  });

  test("in a file with other line ends and a mark before its text", () => {
    const other = Object.fromEntries(
      Object.entries(texts).map(([path, text]) => [path, `\uFEFF${text.replaceAll("\n", "\r\n")}`]),
    );
    const workspace = workspaceOf(other);
    expect(told(other, finish(renameAt(workspace, file, position, name)))).toEqual(lines);
  });
});

test("what is no text is refused by the name that stands there, not by the path of its file", () => {
  const workspace = workspaceOf({ "/shed/jug.fettle": 'craft "Jug"\n' });
  expect(finish(renameAt(workspace, "/shed/jug.fettle", { line: 0, character: 8 }, "a\0"))).toEqual({
    kind: "refused",
    message:
      "With “a\0” in place of “Jug”, line 1 of “Jug” (jug.fettle) would be read as something else. Take another name.",
  });
});

const done = cases.filter(({ lines }) => !lines[0]?.startsWith("refused"));

test.each(done)("there and back: $title", ({ texts, file, position, name }) => {
  const workspace = workspaceOf(texts);
  const able = renameableAt(workspace, file, position);
  const renamed = finish(renameAt(workspace, file, position, name));
  if (able.kind === "refused" || renamed.kind === "refused") throw new Error(JSON.stringify([able, renamed]));
  const after = afterRename(texts, renamed);
  const moved = renamed.move?.from === file ? renamed.move.to : file;
  const back = finish(
    renameAt(workspaceOf(after), moved, placeAfter(renamed.edits, file, able.range.start), able.text),
  );
  expect(back.kind === "renamed" ? afterRename(after, back) : back).toEqual(texts);
});
