/** Sections in the order of the reference: case by case, and on scripts made at random. */
import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { organizeEdits } from "../../../shared/ide/format/organize.ts";
import { madePair, workspaceOf } from "../compare/made-pairs.ts";
import { catalogue, edited, meaningOf, scriptOf } from "./meaning.ts";

const cases = readFileSync(new URL("organized.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((text) => {
    const [title = "", ...lines] = text.split("\n");
    const [given = "", below = ""] = lines.join("\n").split(/^---\n/m);
    const expected = below.replace(/\n+$/, "\n");
    return { title, given, expected: expected === "same\n" ? given : expected };
  });

function organized(text: string): string {
  return edited(text, organizeEdits(scriptOf(text), catalogue));
}

test.each(cases)("$title", ({ given, expected }) => {
  expect(organized(given)).toBe(expected);
  expect(organizeEdits(scriptOf(expected), catalogue)).toEqual([]);
});

test("line ends and a missing one at the end stay", () => {
  const text = 'craft "Jug"\r\nmodes\r\n  arm  when TL is down\r\npack\r\n  cells  6';
  expect(organized(text)).toBe('craft "Jug"\r\n\r\npack\r\n  cells  6\r\n\r\nmodes\r\n  arm  when TL is down');
});

/** What a script says, its entries by section: their order within it counts. */
function bySection(text: string): unknown {
  const { entries, drops, sections, ...rest } = meaningOf(text) as Record<
    "entries" | "drops" | "sections",
    { section: string }[]
  >;
  const sorted = (list: readonly { section: string }[]) =>
    list.toSorted((a, b) => (a.section < b.section ? -1 : a.section > b.section ? 1 : 0));
  const { allowances } = rest as unknown as { allowances: unknown[] };
  const said = allowances.map((each) => JSON.stringify(each)).sort();
  return { ...rest, allowances: said, entries: sorted(entries), drops: sorted(drops), sections: sorted(sections) };
}

test("a script means the same, its notes stand where they stood, and it stays as it is the next time", () => {
  fc.assert(
    fc.property(fc.nat(2 ** 31 - 1), (seed) => {
      const { texts, mine } = madePair(seed);
      const after = Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, organized(text)]));
      for (const [path, text] of Object.entries(texts)) {
        expect(bySection(after[path]!), text).toEqual(bySection(text));
        expect(organized(after[path]!), text).toBe(after[path]);
      }
      const [before, now] = [workspaceOf(texts).craft(mine)!, workspaceOf(after).craft(mine)!];
      expect(differencesOf(before, now, catalogue)).toEqual([]);
    }),
    { seed: 14, numRuns: 200 },
  );
}, 60_000);
