/** The scripts of whole workspaces, as `workspaces.txt` has them: the files, the tree that they make, and the status of each. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeTrees } from "../../../shared/ide/workspace-tree/workspace-tree.ts";
import { OWN_LEVELS, type RuleLevels } from "../../../shared/model/rule-levels.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { workspaceOf } from "../../rules/check.ts";
import { filesOf, outlineOf, statusLine } from "./outline.ts";

const cases = readFileSync(inProject("tests/ide/workspace-tree/workspaces.txt"), "utf8")
  .split(/^### /m)
  .slice(1)
  .map((part) => {
    const [, name, files, tree, status] = /^(.+)\n([\s\S]*)--- tree\n([\s\S]*)--- status\n([\s\S]*)$/.exec(part)!;
    return { name: name!, files: filesOf(files!), tree: tree!.trim(), status: status!.trim() };
  });

test("there are some thirty of them", () => {
  expect(cases.length).toBeGreaterThan(30);
});

describe.each(cases)("$name", ({ files, tree, status }) => {
  const workspace = workspaceOf(files);

  test("its tree", async () => {
    expect(await outlineOf(workspace)).toBe(tree);
  });

  test("the status of each file", () => {
    const lines = Object.keys(files).map((file) => `${file}: ${statusLine(workspace, file)}`);
    expect(lines.join("\n")).toBe(status);
  });

  test("line ends of another system change nothing", async () => {
    const other = Object.fromEntries(
      Object.entries(files).map(([file, text]) => [file, text.replaceAll("\n", "\r\n")]),
    );
    expect(await outlineOf(workspaceOf(other))).toBe(tree);
  });
});

describe("what was counted is kept", () => {
  const files = {
    "jug.fettle": 'craft "Jug"\nuse "habits.fettle"\n',
    "mug.fettle": 'craft "Mug"\n',
    "habits.fettle": 'layer "Habits"\nmodes\n  arm when TL is down\n',
  };
  const counts = async (trees: ReturnType<typeof makeTrees>, texts: Record<string, string>) => {
    const { files: found } = await trees.withFindings(workspaceOf(texts));
    return Object.fromEntries(found.map(({ file, findings }) => [file, findings]));
  };

  test("for a file that is as it was, and for what a change does not reach", async () => {
    const trees = makeTrees();
    const before = await counts(trees, files);
    const same = await counts(trees, files);
    for (const file of Object.keys(files)) expect(same[file]).toBe(before[file]);
    const after = await counts(trees, { ...files, "habits.fettle": 'layer "Habits"\n' });
    expect(after["mug.fettle"]).toBe(before["mug.fettle"]);
    expect(after["jug.fettle"]).not.toEqual(before["jug.fettle"]);
  });

  test("and is what a first look finds, whatever changes: a used file comes, goes, and is of another kind", async () => {
    const trees = makeTrees();
    const { "habits.fettle": habits, ...without } = files;
    for (const texts of [
      files,
      without,
      { ...files, "habits.fettle": habits.replace("layer", "handset") },
      { ...files, "habits.fettle": habits.replace("layer", "craft") },
      files,
    ])
      expect(await counts(trees, texts)).toEqual(await counts(makeTrees(), texts));
  });
});

test("a rule at another level is counted there at once", async () => {
  const trees = makeTrees();
  const { catalogue, view } = workspaceOf({ "jug.fettle": 'craft "Jug"\nuse "gone.fettle"\n' });
  const core = makeCore(catalogue);
  const errors = async (levels: RuleLevels) =>
    (await trees.withFindings(core.at(view, levels))).files[0]!.findings!.errors;
  expect(await errors(OWN_LEVELS)).toBe(1);
  expect(await errors(new Map([["use-missing", "hint"]]))).toBe(0);
});

test("a thousand craft are listed in well under a second, with a turn for others between them", async () => {
  const craft = Array.from({ length: 1000 }, (_, i) => [
    `craft/${i}.fettle`,
    `craft "C${i}"\nuse "../habits.fettle"\n`,
  ]);
  const workspace = workspaceOf({ ...Object.fromEntries(craft), "habits.fettle": 'layer "Habits"\n' });
  let turns = 0;
  const start = performance.now();
  const { files } = await makeTrees().files(workspace, () => {
    turns++;
    return undefined;
  });
  expect(performance.now() - start).toBeLessThan(2_000);
  expect(turns).toBe(1001);
  expect(files.at(-1)!.users).toHaveLength(1000);
  // As it crosses to the client: indices in place of paths keep it small.
  expect(JSON.stringify(files).length).toBeLessThan(250_000);
});
