import { expect, test } from "vitest";
import { passingCore } from "../../server/src/lsp/passing-core.ts";
import { makePasts } from "../../server/src/lsp/pasts.ts";
import { collectAll } from "../../server/src/node/free-memory.ts";
import { finishInGit } from "../../server/src/node/git.ts";
import { makeCheckedPasts } from "../../server/src/node/git-checks.ts";
import { type Catalogue, makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { pastReader } from "../../shared/rules/lib/past-checks.ts";
import { makeRepository } from "../cli/repository.ts";

/** The catalogue as a pilot's own words make it: another one each time. */
const withWord = (word: string): Catalogue => makeCatalogue([], [{ word, name: "mass" }]);

test("a core is the same for so many uses, and another one after that and when it is let go", () => {
  const catalogue = makeCatalogue();
  const passing = passingCore(3);
  const first = passing.by(catalogue);
  passing.used();
  passing.used();
  expect(passing.by(catalogue)).toBe(first);
  passing.used();
  const second = passing.by(catalogue);
  expect(second).not.toBe(first);
  passing.letGo();
  expect(passing.by(catalogue)).not.toBe(second);
});

test("another catalogue has a core and a number of its own", () => {
  const [jug, mug] = ["jug", "mug"].map(withWord) as [Catalogue, Catalogue];
  const passing = passingCore(3);
  expect(passing.by(jug).catalogue).toBe(jug);
  expect(passing.by(mug).catalogue).toBe(mug);
  const number = passing.numberOf(jug);
  expect(passing.numberOf(jug)).toBe(number);
  expect(passing.numberOf(mug)).not.toBe(number);
});

/** A pilot who types in own words makes a catalogue with each key, while the past of one craft after another is looked up. */
const EARLIER = ["jug", "mug", "vase"];

test("nothing is kept of the words by which the past of other craft was looked up before", async () => {
  const catalogues: WeakRef<Catalogue>[] = [];
  let now = withWord("first");
  const asked: string[] = [];
  const pasts = makePasts({
    host: {
      of: async (path) => {
        asked.push(path);
        return null;
      },
      lookAgain() {},
      commits: async () => ({ kind: "none", why: "" }),
    },
    catalogue: () => now,
    changed() {},
    failed: (error) => expect.fail(String(error)),
  });
  for (const name of [...EARLIER, "bowl"]) {
    now = withWord(name);
    if (name !== "bowl") catalogues.push(new WeakRef(now));
    pasts.past(name);
    await expect.poll(() => asked).toContain(name);
  }
  await collectAll();
  expect(catalogues.map((each) => each.deref() !== undefined)).toEqual(EARLIER.map(() => false));
});

test("what git knows is kept by the words of now alone", async () => {
  const { folder } = makeRepository(Object.fromEntries(EARLIER.map((name) => [`${name}.fettle`, `craft "${name}"\n`])));
  const pasts = makeCheckedPasts();
  const catalogues = EARLIER.map((name) => {
    const catalogue = withWord(name);
    finishInGit(folder, pasts.of(`${folder}/${name}.fettle`, pastReader(makeCore(catalogue))));
    return new WeakRef(catalogue);
  });
  // A reference that is weak holds until the engine has had a turn.
  await new Promise((resolve) => setTimeout(resolve, 0));
  await collectAll();
  expect(catalogues.map((each) => each.deref() !== undefined)).toEqual([false, false, true]);
});
