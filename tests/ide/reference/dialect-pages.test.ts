/** The pages about dialects say what the program does: every example of theirs is read by it. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { lineReadings, readBoard } from "../../../shared/dialect/read/read-board.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { boardTextOf, examplesOf } from "../../../shared/ide/reference/dialect/example.ts";
import { MILL_CHANGE, MILL_SCRIPT } from "../../../shared/ide/reference/dialect/guide.ts";
import { dialectAfter, guideSteps, MILL_TEXT, MILL_WHEEL } from "../../../shared/ide/reference/dialect/guide-steps.ts";
import { dialectPages } from "../../../shared/ide/reference/dialect/pages.ts";
import { languageWords } from "../../../shared/ide/reference/language-words.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { parse } from "../../../shared/syntax/parse.ts";

const catalogue = makeCatalogue();
const examples = examplesOf(dialectPages);

/** Entries as `SECTION NAME VALUE` that are none, each with what is said of it. */
function faultsOf(says: readonly string[]): string[] {
  return says.flatMap((each) => {
    const [section = "", ...rest] = each.split(" ");
    const [name, title] = section.split("/");
    const text = `craft "A"\n\n${name}${title === undefined ? "" : ` "${title}"`}\n  ${rest.join(" ")}\n`;
    const script = makeCore(catalogue)
      .at(memoryFiles({ "/craft.fettle": text }))
      .script("/craft.fettle")!;
    return script.issues.map(({ message }) => `${each}: ${message}`);
  });
}

describe.each(examples)("$title", ({ example }) => {
  test("its dialect is one, with the findings that the page tells of and no others", () => {
    const dialect = readDialect("/dialect.fettle", parse(example.dialect), catalogue);
    expect(dialect.issues.map(({ code, message, span }) => `${span.line + 1} ${code}: ${message}`)).toEqual(
      example.finds.map((code) => expect.stringMatching(new RegExp(`^\\d+ ${code}: `))),
    );
  });

  if (example.reads.length === 0) return;
  test("its lines are read as the page says, and mean entries", () => {
    const files = { "/dialect.fettle": example.dialect, "/wheel.fettle": example.handset ?? "" };
    const workspace = makeCore(catalogue).at(memoryFiles(files));
    const handset = example.handset === null ? null : workspace.script("/wheel.fettle");
    const dialect = dialectOf(workspace, "/dialect.fettle")!;
    const { lines, script } = readBoard(dialect, boardTextOf(example), { workspace, handset, craft: null });
    const told = lines.map(({ state, says, why }, i) => {
      const asked = example.reads[i]!;
      return {
        text: asked.text,
        state,
        says,
        why: state === "odd" ? (asked.why && why !== null ? asked.why : why) : "",
      };
    });
    expect(told).toEqual(example.reads);
    expect(faultsOf(example.reads.flatMap(({ says }) => says))).toEqual([]);
    if (example.script !== null) expect(script.trimEnd()).toBe(example.script);
  });
});

test.each(examples.filter(({ example }) => example.writes !== null))(
  "$title is written as the page says",
  ({ example }) => {
    const { craft: script, base, text, changes } = example.writes!;
    const workspace = makeCore(catalogue).at(memoryFiles({ "/d.fettle": example.dialect, "/craft.fettle": script }));
    const craft = workspace.craft("/craft.fettle")!;
    const written = writeBoard(
      dialectOf(workspace, "/d.fettle")!,
      craft,
      workspace,
      base === null ? null : `${base}\n`,
    );
    expect(written.text.trimEnd()).toBe(text);
    if (changes !== null) expect(written.changes.trimEnd()).toBe(changes);
  },
);

describe("the guide, typed word for word", () => {
  const board = (steps: number) => {
    const files = { "/mill.fettle": dialectAfter(steps), "/wheel.fettle": MILL_WHEEL, "/tankard.fettle": MILL_SCRIPT };
    const workspace = makeCore(catalogue).at(memoryFiles(files));
    return { workspace, dialect: dialectOf(workspace, "/mill.fettle")!, handset: workspace.script("/wheel.fettle") };
  };

  test.each(guideSteps.map((step, at) => ({ ...step, at })))("$title", ({ at, sees, says }) => {
    const { workspace, dialect } = board(at + 1);
    const lines = lineReadings(dialect, MILL_TEXT, workspace.catalogue);
    const count = (state: string) => lines.filter((line) => line.state === state).length;
    expect([count("read"), count("odd"), count("kept"), count("idle")]).toEqual(sees);
    if (says) expect(lines[MILL_TEXT.split("\n").indexOf(says[0])]!.says.join("; ")).toBe(says[1]);
    // Between two steps only a new code may be idle.
    expect(dialect.issues.filter(({ code }) => code !== "code-unused")).toEqual([]);
  });

  test("the script that the text becomes, and what then goes back to the board", () => {
    const { workspace, dialect, handset } = board(guideSteps.length);
    expect(dialect.issues).toEqual([]);
    const context = { workspace, handset, craft: null, uses: ["wheel.fettle"] };
    expect(readBoard(dialect, MILL_TEXT, context).script).toBe(MILL_SCRIPT);
    const craft = workspace.craft("/tankard.fettle")!;
    expect(writeBoard(dialect, craft, workspace, MILL_TEXT).text).toBe(MILL_TEXT);
    const [capacity, warnAt] = MILL_CHANGE.from;
    const changed = MILL_SCRIPT.replace(capacity, MILL_CHANGE.to[0]).replace(warnAt, MILL_CHANGE.to[1]);
    const after = makeCore(catalogue).at(memoryFiles({ "/tankard.fettle": changed, "/wheel.fettle": MILL_WHEEL }));
    const written = writeBoard(dialect, after.craft("/tankard.fettle")!, after, MILL_TEXT);
    expect(written.changes).toBe(MILL_CHANGE.changes);
    expect(written.text).toBe(
      MILL_TEXT.replace("grain 1100", "grain 1300").replace("sluice 70 shuts", "sluice 72 shuts"),
    );
  });
});

test("pages and words of the language are the same", () => {
  const words = languageWords.map(({ word }) => word).filter((word) => word.startsWith("dialect"));
  expect(dialectPages.map(({ name }) => name)).toEqual(words);
});

test("every rule that looks at dialects is on a page", () => {
  const text = dialectPages.flatMap(({ parts }) => parts.filter((part) => typeof part === "string")).join("\n");
  const named = new Set([...text.matchAll(/`([a-z]+(?:-[a-z]+)+)`/g)].map(([, name]) => name!));
  for (const code of ["slot-unmatched", "slot-endless", "line-beaten", "code-lossy", "code-unused", "lines-alike"]) {
    expect(named).toContain(code);
  }
  expect(rules.length).toBeGreaterThan(0);
});
