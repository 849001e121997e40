/** The disk under a language server: what is listed of it, and what it can do no harm with. */
import { execFileSync } from "node:child_process";
import { mkdirSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { diskFiles, listWorkspace } from "../../server/src/node/disk-files.ts";
import { folderOf } from "../cli/program.ts";

const BOUNDS = { folders: 5000, depth: 24, files: 10_000, ms: 2000 };

/** What is listed of a folder, from there on, in order. */
async function listed(folder: string, bounds = {}) {
  const { paths, cut } = await listWorkspace([folder], { ...BOUNDS, ...bounds });
  return { paths: paths.map((path) => path.slice(folder.length + 1)).sort(), cut };
}

test("scripts and own words are listed, not what is hidden or installed", async () => {
  const folder = await folderOf({
    "jug.fettle": "",
    "parts/lamp.catalogue.json": "{}",
    "parts/deep/mine.aliases.json": "{}",
    "notes.txt": "",
    ".old/jug.fettle": "",
    "parts/.git/jug.fettle": "",
    "node_modules/a/jug.fettle": "",
  });
  const paths = ["jug.fettle", "parts/deep/mine.aliases.json", "parts/lamp.catalogue.json"];
  expect(await listed(folder)).toEqual({ paths, cut: false });
});

test("a hidden folder that is itself opened is a workspace as any other", async () => {
  const folder = await folderOf({ ".shed/jug.fettle": "" });
  expect(await listed(join(folder, ".shed"))).toEqual({ paths: ["jug.fettle"], cut: false });
});

test.each([
  ["folders", { folders: 3 }, ["a/1.fettle", "b/2.fettle"]],
  ["depth", { depth: 1 }, ["a/1.fettle", "b/2.fettle"]],
  ["files", { files: 2 }, ["a/1.fettle", "b/2.fettle"]],
  ["time", { ms: -1 }, []],
])("with too much of %s it gives up, has the nearest, and says so", async (_, bounds, paths) => {
  const folder = await folderOf({ "a/1.fettle": "", "b/2.fettle": "", "a/deep/3.fettle": "" });
  expect(await listed(folder, bounds)).toEqual({ paths, cut: true });
  expect((await listed(folder)).cut).toBe(false);
});

test("bounds that are just met leave nothing out", async () => {
  const folder = await folderOf({ "a/1.fettle": "", "b/2.fettle": "" });
  expect(await listed(folder, { folders: 3, files: 2, depth: 1 })).toMatchObject({ cut: false });
});

test("links that lead in a circle end", async () => {
  const folder = await folderOf({ "a/jug.fettle": 'craft "Jug"\n' });
  symlinkSync(folder, join(folder, "a/round"));
  symlinkSync("two.fettle", join(folder, "one.fettle"));
  symlinkSync("one.fettle", join(folder, "two.fettle"));
  expect(await listed(folder)).toEqual({ paths: ["a/jug.fettle", "one.fettle", "two.fettle"], cut: false });
  expect(await diskFiles.read(`${folder}/one.fettle`)).toMatchObject({ answer: { kind: "unreadable" } });
  const round = `${folder}/a/round/a/round/a/jug.fettle`;
  expect(await diskFiles.read(round)).toMatchObject({ answer: { kind: "text" }, realPath: `${folder}/a/jug.fettle` });
});

test("what is no file is not waited for, and what is far too large is not read", async () => {
  const folder = await folderOf({ "huge.fettle": "" });
  truncateSync(join(folder, "huge.fettle"), 2 ** 40);
  mkdirSync(join(folder, "folder.fettle"));
  execFileSync("mkfifo", [join(folder, "pipe.fettle")]);
  const why = async (name: string) => {
    const { answer } = await diskFiles.read(`${folder}/${name}`);
    return answer.kind === "unreadable" ? answer.why : answer.kind;
  };
  expect(await why("huge.fettle")).toContain("1048576.0 MB");
  expect(await why("folder.fettle")).toBe("it is no file");
  expect(await why("pipe.fettle")).toBe("it is no file");
  expect(await why("nothing.fettle")).toBe("missing");
  expect(await why("jug.fettle/below.fettle")).toBe("missing");
});

test("thousands of files are read without having them all open at once", async () => {
  const folder = await folderOf({});
  const names = Array.from({ length: 3000 }, (_, i) => `${folder}/${i}.fettle`);
  for (const name of names) writeFileSync(name, 'craft "Jug"\n');
  const answers = await Promise.all(names.map((name) => diskFiles.read(name)));
  expect(answers.every(({ answer }) => answer.kind === "text")).toBe(true);
  rmSync(folder, { recursive: true });
});
