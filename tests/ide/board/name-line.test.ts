/** Lines of a board's text are named one after another: what is offered for each, and the dialect that comes of it. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { type LineOffers, nameLine } from "../../../shared/ide/board/name-line.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const catalogue = makeCatalogue();
const FILE = "/shed/tide.fettle";

interface Naming {
  readonly line: number;
  readonly section: string;
  readonly name: string;
  readonly value: string;
  /** What is taken of it, by its fact; null for a refusal. */
  readonly expected: readonly string[];
}

interface Story {
  readonly title: string;
  readonly dialect: string | null;
  readonly text: string;
  readonly namings: readonly Naming[];
  readonly result: string;
}

/** A story: the text between fences, namings as “LINE SECTION NAME = VALUE” with the offers below, the dialect at last. */
const stories: readonly Story[] = readFileSync(new URL("named.txt", import.meta.url), "utf8")
  .split(/^# /m)
  .slice(1)
  .map((block) => {
    const parts = block.split(/^~~~.*\n/m);
    // A dialect that is there already stands first.
    const isBegun = parts.length > 5;
    const [head, text = "", namings = "", result = ""] = isBegun ? [parts[0]!, ...parts.slice(2)] : parts;
    return {
      title: head!.trim(),
      dialect: isBegun ? parts[1]! : null,
      text,
      result,
      namings: namings
        .split(/^(?=\d+ )/m)
        .filter((each) => /^\d/.test(each))
        .map((each) => {
          const [first = "", ...expected] = each.trimEnd().split("\n");
          const [, line, section, name, value] = /^(\d+) (\S+) (\S+) = (.*)$/.exec(first)!;
          return { line: Number(line) - 1, section: section!, name: name!, value: value!, expected };
        }),
    };
  });

function named(story: Story, dialect: string | null, { line, section, name, value }: Naming): LineOffers {
  const files: Record<string, string> = dialect === null ? {} : { [FILE]: dialect };
  const workspace = makeCore(catalogue).at(memoryFiles(files));
  return nameLine(workspace, { text: story.text, line, section, name, value, file: FILE, dialectName: "Tide" });
}

describe.each(stories)("$title", (story) => {
  test("offers what can be it, and writes a dialect without a finding", () => {
    let dialect = story.dialect;
    for (const naming of story.namings) {
      const offered = named(story, dialect, naming);
      const told = offered.kind === "refused" ? [`! ${offered.message}`] : offered.offers.map(inWords);
      const isOpen = naming.expected.at(-1) === "  ...";
      const few = isOpen ? [...told.slice(0, naming.expected.length - 1), "  ..."] : told;
      expect(few.join("\n"), `${naming.section} ${naming.name}`).toBe(naming.expected.join("\n"));
      if (offered.kind === "offers") dialect = offered.offers[0]!.text;
    }
    expect(dialect ?? "").toBe(story.result);
    const read = dialectOf(makeCore(catalogue).at(memoryFiles({ [FILE]: dialect ?? "" })), FILE);
    expect(read?.issues.filter(({ code }) => code !== "code-lossy").map(({ message }) => message) ?? []).toEqual([]);
  });
});

function inWords({ fact, how, reads }: Extract<LineOffers, { kind: "offers" }>["offers"][number]): string {
  return `  ${fact}\n    ${how}; ${reads}`;
}
