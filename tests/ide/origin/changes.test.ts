/** Lines that go from file to file, as texts before and after. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inlineLayer } from "../../../shared/ide/origin/inline.ts";
import { extractLayer, type Moved, moveIntoLayer } from "../../../shared/ide/origin/move.ts";
import { overrideHere } from "../../../shared/ide/origin/override.ts";
import { workspaceOf } from "../../rules/check.ts";
import type { Texts } from "../edits/scripts-edited.ts";
import { after, type Edits, lines } from "./moved.ts";

interface Case {
  readonly what: string;
  readonly texts: Texts;
  readonly file: string;
  readonly range: ReturnType<typeof lines>;
  readonly said: string;
  readonly expected: Texts;
}

/** Files by name, each after a line with three hyphens. */
function filesIn(text: string): Record<string, string> {
  return Object.fromEntries(
    text
      .split(/^--- /m)
      .slice(1)
      .map((part) => [`${part.slice(0, part.indexOf("\n"))}.fettle`, part.slice(part.indexOf("\n") + 1)]),
  );
}

const cases = readFileSync(new URL("changes.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((block): readonly [string, Case] => {
    const [title, what, ...rest] = block.split("\n");
    const [before, behind = ""] = rest.join("\n").split(/^>>>/m);
    const marked = filesIn(before!);
    const file = Object.keys(marked).find((name) => /^>/m.test(marked[name]!))!;
    const at = marked[file]!.split("\n").flatMap((line, i) => (line.startsWith(">") ? [i] : []));
    const texts = { ...marked, [file]: marked[file]!.replaceAll(/^>/gm, "") };
    const said = behind.slice(0, behind.indexOf("\n")).trim();
    return [title!, { what: what!, texts, file, range: lines(at[0]!, at.at(-1)), said, expected: filesIn(behind) }];
  });

function changed({ what, texts, file, range }: Case): Moved {
  const workspace = workspaceOf(texts);
  const [verb, ...more] = what.split(" ");
  const named = more.join(" ");
  if (verb === "move") return moveIntoLayer(workspace, file, range, `${named}.fettle`);
  if (verb === "extract") return extractLayer(workspace, file, range, named);
  if (verb === "inline") return inlineLayer(workspace, file, range.start.line);
  return overrideHere(workspace, file, { line: range.start.line, character: 3 }, undefined);
}

function told(moved: Edits, now: Texts): string {
  const { select, notes } = moved;
  if (!select) return notes.join(" ");
  const { start, end } = select.range;
  return `selected: ${now[select.file]!.split("\n")[start.line]!.slice(start.character, end.character)}`;
}

test.each(cases)("%s", (_, each) => {
  const moved = changed(each);
  if (moved.kind === "refused") {
    expect([moved.message, each.expected]).toEqual([each.said, {}]);
    return;
  }
  const now = after(each.texts, moved);
  for (const [name, text] of Object.entries({ ...each.texts, ...each.expected })) expect(now[name], name).toBe(text);
  expect(Object.keys(now).sort()).toEqual(
    [...new Set([...Object.keys(each.texts), ...Object.keys(each.expected)])].sort(),
  );
  expect(told(moved, now)).toBe(each.said);
});
