/** Names of a small shed found by what is typed: the best first, at most eight of them. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { makeSymbolSearch, placeOfSymbol } from "../../../shared/ide/structure/workspace-symbols.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";
import { casesIn, keepIfAsked } from "./cases.ts";

const core = makeCore(makeCatalogue());

const TEXTS = {
  "/shed/jug.fettle": `craft "Jug"
use "wheel.fettle"
use "habits.fettle"

pack
  cells 6
  capacity 1100 mAh
  warn-at 3.5 V/cell

pack "Shelf"
  capacity 900 mAh

outputs
  tail-lamp when arm # behind

adjust
  overall follows KN from 0.85 to 1.15

osd
  grid 53 x 20
  pack-volts at 2, 3
  link-quality at 9, 3
  cell-volts at 20, 3
`,
  "/shed/habits.fettle": `layer "Shed habits"

pack
  warn-at 3.4 V/cell

modes
  arm when TL is down
  turtle when TR is down
  arm-permit when KN above 1500 us
`,
  "/shed/wheel.fettle": `handset "Wheel"

controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch9 1000 us to 2000 us
`,
  "/shed/kiln.fettle": `dialect "Kiln, spring"

text
  known-by "kiln of spring"

codes
  glaze number 0 to 220 each 0.02 V/cell

pack
  "holds {c:0 to 9999}"  capacity {c} mAh
`,
};

function search(workspace: Workspace, typed: string, most = 8): string[] {
  return finish(makeSymbolSearch().find(workspace, typed, most)).map(({ file, symbol, words }) => {
    const { name, kind, container, nameRange } = symbol;
    const place = `${file.slice("/shed/".length)}:${nameRange.start.line + 1}`;
    return `${kind} ${name}${words === null ? "" : ` · ${words}`} (${container}) ${place}`;
  });
}

const shed = core.at(memoryFiles(TEXTS));
const found = (given: string) => search(shed, given.trim()).join("\n");
const cases = casesIn("symbols.txt");
keepIfAsked("symbols.txt", cases, found);

test.each(cases)("$title", ({ given, expected }) => {
  expect(found(given)).toBe(expected);
});

test("everything that has a name is found by it, first of all", () => {
  const all = finish(makeSymbolSearch().find(shed, "", 10_000));
  expect(all.length).toBeGreaterThan(35);
  for (const { file, symbol } of all) {
    const best = finish(makeSymbolSearch().find(shed, symbol.name, 40)).filter(({ words }) => words === null);
    const same = best.filter(({ symbol: each }) => each.name === symbol.name);
    expect(
      same.some((each) => each.file === file && each.symbol.nameRange.start.line === symbol.nameRange.start.line),
    ).toBe(true);
    expect(
      best.slice(0, same.length).map(({ symbol: each }) => each.name.toLowerCase()),
      symbol.name,
    ).toEqual(same.map(() => symbol.name.toLowerCase()));
  }
});

test("no more than are asked for, and those that fit best", () => {
  expect(search(shed, "a", 3)).toEqual(search(shed, "a", 100).slice(0, 3));
  expect(search(shed, "", 2)).toHaveLength(2);
  expect(search(shed, "x".repeat(100_000))).toEqual([]);
});

test("a search remembers files, and no file that is gone or another one now", () => {
  const { find } = makeSymbolSearch();
  const names = (workspace: Workspace, typed: string) =>
    finish(find(workspace, typed, 9)).map(({ symbol }) => symbol.name);
  expect(names(shed, "shelf")).toEqual(["pack Shelf"]);
  const changed = core.at(
    memoryFiles({ ...TEXTS, "/shed/jug.fettle": TEXTS["/shed/jug.fettle"].replace("Shelf", "Loft") }),
  );
  expect(names(changed, "shelf")).toEqual([]);
  expect(names(changed, "loft")).toEqual(["pack Loft"]);
  const { "/shed/jug.fettle": _, ...without } = TEXTS;
  expect(names(core.at(memoryFiles(without)), "loft")).toEqual([]);
});

test("a name is found again where its line has moved", () => {
  const moved = core.at(memoryFiles({ "/shed/jug.fettle": `# one\n# two\n${TEXTS["/shed/jug.fettle"]}` }));
  const place = (name: string, kind: string, line: number) =>
    placeOfSymbol(moved, "/shed/jug.fettle", { name, kind, line })?.start.line;
  expect(place("warn-at", "setting", 7)).toBe(9);
  // Of two, the one that is nearer to where it stood.
  expect([place("capacity", "setting", 6), place("capacity", "setting", 11)]).toEqual([8, 12]);
  expect(place("gone", "setting", 6)).toBeUndefined();
});
