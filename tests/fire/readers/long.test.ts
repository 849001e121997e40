/** Texts of boards, own words and logs far longer than any, each read within a bound of the processor's time. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { logOf } from "../../../server/src/node/git-log.ts";
import { treesOf } from "../../../server/src/node/git-trees.ts";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { MOST_BYTES } from "../../../shared/model/script-limits.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { expectWithin } from "../../growth.ts";
import { answered } from "./git-made.ts";
import { catalogue } from "./grammar.ts";

const example = (name: string) => readFileSync(new URL(`../../../examples/boards/${name}`, import.meta.url), "utf8");

test.each([
  ["100,000 lines that are read", (lines: readonly string[]) => lines.join("\n")],
  ["100,000 lines of no kind", (lines: readonly string[]) => lines.map((_, i) => `zz ${i} of ${i * 7}`).join("\n")],
  ["1 MB on one line", (lines: readonly string[]) => lines[5]! + "x".repeat(1_000_000)],
])("a board's text: %s", (_, make) => {
  const once = example("loom.txt").split("\n");
  const lines = Array.from({ length: 100_000 }, (_, i) => once[i % once.length]!);
  const text = make(lines);
  const workspace = makeCore(catalogue).at(memoryFiles({}));
  const dialect = readDialect("/loom.fettle", parse(example("loom.fettle")), catalogue);
  expectWithin(6000, () => {
    const { lines } = readBoard(dialect, text, { workspace, handset: null, craft: null });
    expect(lines.length).toBe(text.split("\n").length - (text.endsWith("\n") ? 1 : 0));
  });
});

const many = (count: number, make: (i: number) => [string, unknown]) =>
  JSON.stringify(Object.fromEntries(Array.from({ length: count }, (_, i) => make(i))), null, 1);

test.each([
  ["words.aliases.json", `{"aliases": ${many(20_000, (i) => [`own word number ${i}`, `nothing.name-${i}`])}}`],
  ["words.aliases.json", `{"aliases": ${many(20_000, (i) => [`own word number ${i}`, "pack.cells"])}}`],
  ["own.catalogue.json", `{"catalogue": "x", "settings": [${Array(40_000).fill('{"name": 4}').join(",\n")}]}`],
  ["own.catalogue.json", "[".repeat(1_000_000)],
  ["own.catalogue.json", `"${"x".repeat(1_000_000)}`],
])("a megabyte of own words: %s", async (file, text) => {
  expect(text.length).toBeLessThan(MOST_BYTES);
  const before = process.cpuUsage();
  const own = await readOwnWords([{ file, answer: { kind: "text", text, validUtf8: true } }]);
  const { user, system } = process.cpuUsage(before);
  expect(own.problems.length + own.catalogue.sections.length).toBeGreaterThan(0);
  expect((user + system) / 1000).toBeLessThan(6000);
});

test("a log of 100,000 commits", () => {
  const id = (i: number) => i.toString(16).padStart(40, "0");
  const zeros = "0".repeat(40);
  const records = Array.from({ length: 100_000 }, (_, i) => {
    const fields = [`\u0001${id(i)}`, id(i + 1), "Potter", "2026-04-18T10:30:00Z", "2026-04-18T10:30:00Z", "Change it"];
    return `${fields.join("\0")}\0:100644 100644 ${zeros} ${id(i)} M\0craft/jug-${i % 50}.fettle\0`;
  });
  const listed = Buffer.from(records.join(""));
  expectWithin(6000, () => {
    const commits = answered(logOf("HEAD", []), () => listed);
    expect(commits.length).toBe(100_000);
    expect([...treesOf(commits).get(id(0))!.keys()].length).toBe(50);
  });
});
