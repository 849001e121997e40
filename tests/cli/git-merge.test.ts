/** Merges by git itself, with `fettle merge` as its driver. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { madeMerge } from "../ide/merge/made-merges.ts";
import { isSameSaying, saysOf } from "../ide/merge/oracle.ts";
import { buildProgram, temporaryFolder } from "./program.ts";
import { makeRepository, type Repository } from "./repository.ts";

let program: string;
beforeAll(async () => {
  program = await buildProgram();
});

const CRAFT = "craft/jug.fettle";

function repository(files: Readonly<Record<string, string>>): Repository {
  const made = makeRepository();
  const labels = "-L %X -L %S -L %Y";
  const driver = `'${process.execPath}' '${program}' merge %O %A %B --out %A --marker-size %L --path %P ${labels}`;
  made.git("config", "merge.fettle.driver", driver);
  made.commit({ ".gitattributes": "*.fettle merge=fettle\n", ...files });
  return made;
}

/** Merges, rebases or picks: what is left in the files, and whether git took it as settled. */
function tried(made: Repository, ...args: string[]): "clean" | "conflict" {
  try {
    made.git(...args);
    return "clean";
  } catch {
    expect(made.git("diff", "--name-only", "--diff-filter=U")).not.toBe("");
    return "conflict";
  }
}

const read = ({ folder }: Repository, path: string) => readFileSync(join(folder, path), "utf8");

/** Fifty files, each changed on two branches at random, merged in one go. */
test("fifty made merges through git: each clean or with a conflict, and each means what the sides say", () => {
  const cases = Array.from({ length: 50 }, (_, i) => madeMerge(4000 + i, i % 3 === 0 ? "apart" : "any"));
  const files = (side: "base" | "ours" | "theirs") =>
    Object.fromEntries(cases.map((each, i) => [`craft/jug-${i}.fettle`, each[side]]));
  const made = repository(files("base"));
  made.git("checkout", "-q", "-b", "shed");
  made.commit(files("theirs"), "of the shed");
  made.git("checkout", "-q", "main");
  made.commit(files("ours"), "of mine");
  expect(tried(made, "merge", "-q", "--no-edit", "shed")).toBe("conflict");

  const unmerged = new Set(made.git("diff", "--name-only", "--diff-filter=U").trim().split("\n"));
  let cleanBut = 0;
  cases.forEach(({ base, ours, theirs }, i) => {
    const path = `craft/jug-${i}.fettle`;
    const text = read(made, path);
    expect(text.includes("<<<<<<< ours"), path).toBe(unmerged.has(path));
    const lineWise = byGitAlone(base, ours, theirs);
    if (unmerged.has(path)) return;
    if (lineWise === "conflict") cleanBut++;
    const [b, o, t, r] = [base, ours, theirs, text].map(saysOf);
    for (const key of new Set([...b!.keys(), ...o!.keys(), ...t!.keys(), ...r!.keys()])) {
      if (
        /^pack\/(Winter|Frost|Thaw)/.test(key) ||
        key.startsWith("verbatim.") ||
        key === "use" ||
        key.startsWith("filters.")
      )
        continue;
      const [before, mine, yours, now] = [b, o, t, r].map((says) => says!.get(key));
      const expected = isSameSaying(before, mine) ? yours : mine;
      expect(isSameSaying(now, expected), `${path}: ${key}\n${text}`).toBe(true);
    }
  });
  expect(unmerged.size).toBeGreaterThan(5);
  // Many of those that git alone gives up are plain once the lines are understood.
  expect(cleanBut).toBeGreaterThanOrEqual(8);
});

function byGitAlone(base: string, ours: string, theirs: string): "clean" | "conflict" {
  const folder = mkdtempSync(join(temporaryFolder(), "alone-"));
  const paths = Object.entries({ ours, base, theirs }).map(([name, text]) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  });
  try {
    execFileSync("git", ["merge-file", "-p", "-q", ...paths], { stdio: "pipe" });
    return "clean";
  } catch {
    return "conflict";
  }
}

const base = 'craft "Jug"\n\npack\n  cells     6\n  capacity  1100 mAh\n  land-at   3.3 V/cell\n';

test("a rebase and a cherry-pick put neighbouring changes together as well", () => {
  const made = repository({ [CRAFT]: base });
  made.git("checkout", "-q", "-b", "shed");
  made.commit({ [CRAFT]: base.replace("1100", "1300") }, "larger");
  made.commit({ [CRAFT]: base.replace("1100", "1300").replace("3.3 V", "3.2 V") }, "lower");
  made.git("checkout", "-q", "main");
  made.commit({ [CRAFT]: base.replace("cells     6", "cells     4") }, "fewer");

  made.git("checkout", "-q", "-b", "pick");
  expect(tried(made, "cherry-pick", "shed~1")).toBe("clean");
  expect(read(made, CRAFT)).toBe(base.replace("1100", "1300").replace("cells     6", "cells     4"));

  made.git("checkout", "-q", "shed");
  expect(tried(made, "rebase", "-q", "main")).toBe("clean");
  const all = base.replace("1100", "1300").replace("3.3 V", "3.2 V").replace("cells     6", "cells     4");
  expect(read(made, CRAFT)).toBe(all);
});

test("a conflict of a rebase is settled like any other", () => {
  const made = repository({ [CRAFT]: base });
  made.git("checkout", "-q", "-b", "shed");
  made.commit({ [CRAFT]: base.replace("1100", "1300").replace("3.3 V", "3.2 V") }, "larger");
  made.git("checkout", "-q", "main");
  made.commit({ [CRAFT]: base.replace("1100", "1500") }, "largest");
  made.git("checkout", "-q", "shed");
  expect(tried(made, "rebase", "-q", "main")).toBe("conflict");
  const text = read(made, CRAFT);
  // In a rebase ours is what the commits are put upon.
  expect(text).toMatch(
    /^<{7} .*\n {2}capacity {2}1500 mAh\n={7}\n {2}capacity {2}1300 mAh\n>{7} .*\n {2}land-at {3}3\.2 V\/cell$/m,
  );
  made.commit({ [CRAFT]: base.replace("1100", "1500").replace("3.3 V", "3.2 V") }, "settled");
  expect(made.git("status", "--porcelain", "-uno")).toBe("");
});

test("two ancestors that were merged in two ways are merged first, with longer marks", () => {
  const made = repository({ [CRAFT]: base });
  made.git("checkout", "-q", "-b", "shed");
  made.commit({ [CRAFT]: base.replace("1100", "1300") }, "larger");
  made.git("checkout", "-q", "main");
  made.commit({ [CRAFT]: base.replace("1100", "1500") }, "largest");
  made.git("branch", "first");
  // Both take the other in, each in a way of its own.
  const mine = base.replace("1100", "1500").replace("cells     6", "cells     4");
  const yours = base.replace("1100", "1300").replace("3.3 V", "3.2 V");
  expect(tried(made, "merge", "-q", "shed")).toBe("conflict");
  made.commit({ [CRAFT]: mine }, "as mine");
  made.git("checkout", "-q", "shed");
  expect(tried(made, "merge", "-q", "first")).toBe("conflict");
  made.commit({ [CRAFT]: yours }, "as yours");
  expect(tried(made, "merge", "-q", "main")).toBe("conflict");
  expect(read(made, CRAFT)).toContain("<<<<<<< ");
  expect(read(made, CRAFT)).not.toContain("<<<<<<<<");
});

test("the file that both add is merged, and a style of conflicts that is set is followed", () => {
  const made = repository({ "notes.txt": "of the shed\n" });
  made.git("config", "merge.conflictStyle", "diff3");
  made.git("checkout", "-q", "-b", "shed");
  made.commit({ [CRAFT]: `${base}\nmodes\n  arm  when TL is down\n` }, "with modes");
  made.git("checkout", "-q", "main");
  made.commit({ [CRAFT]: base.replace("1100", "1500") }, "without");
  expect(tried(made, "merge", "-q", "shed")).toBe("conflict");
  const text = read(made, CRAFT);
  expect(text).toContain("|||||||");
  expect(text).toContain("modes\n  arm  when TL is down\n");
});
