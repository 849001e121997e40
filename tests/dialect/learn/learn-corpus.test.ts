/**
 * What is learned from pairs: `learn-corpus.txt` holds the cases. A pair a line: the script's sections (`SECTION |`, its
 * entries between `;`), `##`, the board's lines between `/`. Below, lines of the dialect, or what stays open.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { learnFrom } from "../../../shared/dialect/learn/learn-from.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { HANDSET } from "../made-dialects.ts";

const core = makeCore(makeCatalogue());

interface Case {
  readonly name: string;
  readonly pairs: readonly { readonly script: string; readonly text: string }[];
  readonly expected: readonly string[];
}

function caseOf(block: string): Case {
  const [name, ...lines] = block.trim().split("\n");
  const pairs: { script: string; text: string }[] = [];
  let script = "";
  for (const line of lines.filter((each) => !each.startsWith("=> "))) {
    const [said, board] = line.split(" ## ");
    const [section, entries] = said!.split(" | ");
    script += `\n${section}\n${entries!
      .split("; ")
      .map((each) => `  ${each}\n`)
      .join("")}`;
    if (board === undefined) continue;
    pairs.push({ script, text: `kiln of spring\n${board.split(" / ").join("\n")}\n` });
    script = "";
  }
  return { name: name!, pairs, expected: lines.filter((each) => each.startsWith("=> ")).map((each) => each.slice(3)) };
}

const CASES = readFileSync(new URL("learn-corpus.txt", import.meta.url), "utf8")
  .split(/^== /m)
  .slice(1)
  .map(caseOf);

test("the corpus holds what it should", () => {
  expect(CASES.length).toBeGreaterThanOrEqual(50);
});

describe("what is learned from pairs", () => {
  test.each(CASES)("$name", ({ pairs, expected }) => {
    const files = Object.fromEntries(
      pairs.map(({ script }, i) => [`/${i}.fettle`, `craft "Jug"\n\nuse "wheel.fettle"\n${script}`]),
    );
    const workspace = core.at(memoryFiles({ ...files, "/wheel.fettle": HANDSET }));
    const crafts = pairs.map((_, i) => workspace.craft(`/${i}.fettle`)!);
    expect(
      pairs.flatMap((_, i) =>
        workspace
          .script(`/${i}.fettle`)!
          .issues.filter(({ code }) => code !== "unusual-value")
          .map(({ message }) => message),
      ),
    ).toEqual([]);
    const { dialect, open } = learnFrom(
      pairs.map(({ text }, i) => ({ craft: crafts[i]!, text, name: `pair ${i + 1}` })),
      workspace,
    );
    const found = [
      ...dialect.split("\n").map((line) => line.trim().replace(/ {2,}/g, " ")),
      ...open.map(({ what }) => `open ${what}`),
    ];
    expect(
      expected.filter((line) => !found.includes(line)),
      found.join("\n"),
    ).toEqual([]);
  });
});
