/** What a core remembers of one craft stays while another is worked on, and no other core has it. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { switchboardOf } from "../../shared/logic/from-craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { perFile } from "../../shared/model/memo.ts";
import { type Core, makeCore } from "../../shared/model/workspace.ts";
import { packsOf } from "../../shared/numbers/pack-of.ts";
import { packReports } from "../../shared/rules/lib/packs.ts";

const jug = 'craft "Jug"\npack\n  cells 4\nmodes\n  arm when ch5 above 1500 us\n';
const mug = 'craft "Mug"\npack\n  cells 6\nmodes\n  arm when ch6 above 1500 us\n';

/** The craft `jug` or `mug` as a key more makes it: its pack and its modes stay. */
function typedIn(core: Core, file: "jug" | "mug", key: number, texts = { jug, mug }) {
  const workspace = core.at(memoryFiles({ ...texts, [file]: `${texts[file]}# ${key}\n` }));
  return { workspace, craft: workspace.craft(file)! };
}

test("typing in two craft by turns computes the pack of neither again", () => {
  const core = makeCore(makeCatalogue());
  const figuresOf = (file: "jug" | "mug", key: number) => {
    const { craft } = typedIn(core, file, key);
    return packsOf(craft, core.catalogue)[0]!;
  };
  const [first, other] = [figuresOf("jug", 1), figuresOf("mug", 1)];
  expect([first.cells, other.cells]).toEqual([4, 6]);
  expect(figuresOf("jug", 2)).toBe(first);
  expect(figuresOf("mug", 2)).toBe(other);
});

test("nor judges it again, where nothing was found in it", () => {
  const core = makeCore(makeCatalogue());
  const judged: (number | null)[] = [];
  const check = ({ cells }: { readonly cells: number | null }) => {
    judged.push(cells);
    return [];
  };
  for (const key of [1, 2, 3]) {
    for (const file of ["jug", "mug"] as const) {
      const { craft, workspace } = typedIn(core, file, key);
      packReports(craft, workspace, check, null);
    }
  }
  expect(judged).toEqual([4, 6]);
});

test("the switches of one craft are kept while the conditions of another are typed", () => {
  const core = makeCore(makeCatalogue());
  const board = switchboardOf(typedIn(core, "jug", 1).craft);
  for (let pulse = 1600; pulse < 1620; pulse++) {
    const texts = { jug, mug: mug.replace("1500", String(pulse)) };
    switchboardOf(typedIn(core, "mug", 1, texts).craft);
  }
  expect(switchboardOf(typedIn(core, "jug", 2).craft)).toBe(board);
});

test("craft whose switches stand in one layer share them", () => {
  const habits = 'layer "Habits"\nmodes\n  arm when ch5 above 1500 us\n';
  const using = (name: string) => `craft "${name}"\nuse "habits.fettle"\n`;
  const workspace = makeCore(makeCatalogue()).at(
    memoryFiles({ "habits.fettle": habits, jug: using("Jug"), mug: using("Mug") }),
  );
  expect(switchboardOf(workspace.craft("mug")!)).toBe(switchboardOf(workspace.craft("jug")!));
});

test("another core begins with nothing", () => {
  const [one, two] = [makeCore(makeCatalogue()), makeCore(makeCatalogue())];
  const figures = (core: Core) => packsOf(typedIn(core, "jug", 1).craft, core.catalogue)[0]!;
  expect(figures(two)).toEqual(figures(one));
  expect(figures(two)).not.toBe(figures(one));
  expect(switchboardOf(typedIn(two, "jug", 1).craft)).not.toBe(switchboardOf(typedIn(one, "jug", 1).craft));
});

test("of very many files, the one longest not asked about is forgotten first", () => {
  const coreMemo = new Map();
  const storeOf = perFile(() => ({}));
  const stores = Array.from({ length: 50 }, (_, i) => storeOf({ file: `${i}`, coreMemo }));
  expect(storeOf({ file: "0", coreMemo })).toBe(stores[0]);
  storeOf({ file: "50", coreMemo });
  expect(storeOf({ file: "0", coreMemo })).toBe(stores[0]);
  expect(storeOf({ file: "1", coreMemo })).not.toBe(stores[1]);
});
