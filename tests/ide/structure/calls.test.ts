/** What hangs on what: the part at the cursor, what it hangs on (→) and what hangs on it (←), with the words that say so. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { type CallItem, callItemsAt, incomingCalls, outgoingCalls } from "../../../shared/ide/structure/calls.ts";
import { relianceOf } from "../../../shared/ide/structure/reliance.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import { finish } from "../../../shared/text/steps.ts";
import { atCursor } from "../cursor.ts";
import { casesIn, filesIn, keepIfAsked } from "./cases.ts";

const wordsAt = (workspace: Workspace, file: string, { start, end }: Range) =>
  workspace.script(file)!.tree.lines[start.line]!.text.slice(start.character, end.character);

const place = (workspace: Workspace, { file, nameRange }: CallItem) =>
  `${file.slice(file.lastIndexOf("/") + 1)}:${nameRange.start.line + 1} ‹${wordsAt(workspace, file, nameRange)}›`;

function hierarchy(given: string): string {
  const { "jug.fettle": own, ...more } = filesIn(given);
  const { workspace, file, position } = atCursor(own!, more);
  const items = finish(callItemsAt(workspace, file, position));
  if (items.length === 0) return "nothing";
  return items
    .flatMap((item) => [
      `${item.kind} ${item.name} (${item.detail}) ${place(workspace, item)}`,
      ...outgoingCalls(workspace, item.craft, item.part).map(({ item: to, ranges }) => {
        const by = ranges.map((range) => `‹${wordsAt(workspace, item.file, range)}›`).join(" ");
        return `→ ${to.kind} ${to.name} (${to.detail}) ${place(workspace, to)} by ${by}`;
      }),
      ...incomingCalls(workspace, item.craft, item.part).map(({ item: from, ranges }) => {
        const by = ranges.map((range) => `‹${wordsAt(workspace, from.file, range)}›`).join(" ");
        return `← ${from.kind} ${from.name} (${from.detail}) ${place(workspace, from)} by ${by}`;
      }),
    ])
    .join("\n");
}

const cases = casesIn("calls.txt");
keepIfAsked("calls.txt", cases, hierarchy);

test.each(cases)("$title", ({ given, expected }) => {
  expect(hierarchy(given)).toBe(expected);
});

const habits = `layer "Habits"

modes
  a|rm when TL is down
`;

test("in a layer, once for each craft that uses it; by itself where none does", () => {
  const { workspace, position } = atCursor(habits);
  const text = habits.replace("|", "");
  const craft = (name: string, mode: string) =>
    `craft "${name}"\nuse "wheel.fettle"\nuse "habits.fettle"\nmodes\n  ${mode} when arm\n`;
  const shed = makeCore(workspace.catalogue).at(
    memoryFiles({
      "/shed/wheel.fettle": 'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
      "/shed/habits.fettle": text,
      "/shed/mug.fettle": craft("Mug", "recorder"),
      "/shed/vat.fettle": craft("Vat", "lights"),
    }),
  );
  const items = finish(callItemsAt(shed, "/shed/habits.fettle", position));
  expect(items.map(({ detail }) => detail)).toEqual(["on Mug: when TL is down", "on Vat: when TL is down"]);
  expect(items.map(({ craft: of, part }) => incomingCalls(shed, of, part).map(({ item }) => item.name))).toEqual([
    ["recorder"],
    ["lights"],
  ]);
  const alone = finish(callItemsAt(workspace, "/shed/jug.fettle", position));
  expect(alone.map(({ detail }) => detail)).toEqual(["when TL is down"]);
});

describe("on every craft of the examples and the fixtures", () => {
  const texts: Record<string, string> = {};
  for (const folder of ["examples", "tests/fixtures"]) {
    const root = join(import.meta.dirname, "../../..", folder);
    for (const name of readdirSync(root, { recursive: true, encoding: "utf8" }))
      if (name.endsWith(".fettle")) texts[`/${folder}/${name}`] = readFileSync(join(root, name), "utf8");
  }
  const workspace = makeCore(makeCatalogue()).at(memoryFiles(texts));
  const crafts = Object.keys(texts).filter((file) => workspace.craft(file));

  test("what hangs on a part is the inverse of what it hangs on", () => {
    expect(crafts.length).toBeGreaterThan(40);
    const key = (from: string, to: string, ranges: readonly Range[]) => `${from} > ${to} ${JSON.stringify(ranges)}`;
    let count = 0;
    for (const file of crafts) {
      const { links } = relianceOf(workspace.craft(file)!, undefined);
      const parts = new Set(links.flatMap(({ from, to }) => [from, to]));
      const out: string[] = [];
      const into: string[] = [];
      for (const part of parts) {
        const name = JSON.stringify([part.kind, part.name, part.position]);
        const other = ({ item }: { item: CallItem }) => JSON.stringify([item.kind, item.part.name, item.part.position]);
        for (const call of outgoingCalls(workspace, file, part)) out.push(key(name, other(call), call.ranges));
        for (const call of incomingCalls(workspace, file, part)) into.push(key(other(call), name, call.ranges));
      }
      expect(out.sort()).toEqual(into.sort());
      count += out.length;
    }
    expect(count).toBeGreaterThan(300);
  });

  test("the part is found again at its own name, and the name lies in its line", () => {
    // Each of them asks every craft that uses the file.
    for (const file of crafts.filter((_, i) => i % 8 === 0))
      for (const { from } of relianceOf(workspace.craft(file)!, undefined).links) {
        const at = { line: from.at.source.line, character: from.at.start + 1 };
        const items = finish(callItemsAt(workspace, from.at.source.file, at));
        const item = items.find(({ craft }) => craft === file);
        // Of a layer that very many craft use, not every one is told.
        if (!item && items.length > 0) continue;
        expect(item?.part, `${from.name} on ${file}`).toMatchObject({ kind: from.kind, name: from.name });
        expect(item!.range.end.character).toBeGreaterThanOrEqual(item!.nameRange.end.character);
      }
  });
});
