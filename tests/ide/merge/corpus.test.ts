import { expect, test } from "vitest";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { corpus, writeMerged } from "./corpus.ts";

const NAMES = { ours: "ours", base: "base", theirs: "theirs" };
const cases = corpus();

/** `UPDATE_MERGES=1` writes the texts that come out, but never whether there are conflicts. */
const UPDATES = process.env.UPDATE_MERGES === "1";

function merged(base: string, ours: string, theirs: string) {
  const { text, conflicts } = mergeTexts(base, ours, theirs, NAMES);
  return { verdict: verdictOf(conflicts), text };
}

function verdictOf(conflicts: number): string {
  if (conflicts === 0) return "clean";
  return conflicts === 1 ? "1 conflict" : `${conflicts} conflicts`;
}

const results = new Map(
  cases.map(({ file, title, base, ours, theirs }) => [`${file} ${title}`, merged(base, ours, theirs)]),
);
if (UPDATES) writeMerged(results);

test("there are merges of every kind", () => {
  expect(results.size).toBe(cases.length);
  expect(cases.length).toBeGreaterThanOrEqual(120);
});

test.each(cases.map((each) => [each.file, each.title, each] as const))("%s: %s", (file, title, { verdict, merged }) => {
  const result = results.get(`${file} ${title}`)!;
  expect(result.verdict, result.text).toBe(verdict);
  if (!UPDATES) expect(result.text).toBe(merged);
});
