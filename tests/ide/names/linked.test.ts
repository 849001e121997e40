/** Which places are typed together, on the cases of `linked.txt`. */
import { expect, test } from "vitest";
import { linkedNamesAt } from "../../../shared/ide/names/linked.ts";
import { workspaceOf } from "../../rules/check.ts";
import { casesIn } from "./cases.ts";

test.each(casesIn("linked.txt"))("$title", ({ texts, file, position, expected }) => {
  const linked = linkedNamesAt(workspaceOf(texts), file, position);
  const lines = texts[file]!.split("\n");
  for (const { start, end } of [...(linked?.ranges ?? [])].reverse()) {
    const line = lines[start.line]!;
    const name = line.slice(start.character, end.character);
    expect(name).toMatch(new RegExp(`^${linked!.pattern}$`));
    lines[start.line] = `${line.slice(0, start.character)}[${name}]${line.slice(end.character)}`;
  }
  const marked = lines.flatMap((line, i) => (line === texts[file]!.split("\n")[i] ? [] : `${i + 1} ${line}`));
  expect(marked.join("\n") || "none").toBe(expected);
});
