/** What git shows and does with scripts in a repository that is set up: by the real git, and the program as it ships. */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { buildProgram, runProgram } from "../program.ts";
import { makeRepository, type Repository } from "../repository.ts";

let program: string;
beforeAll(async () => {
  program = await buildProgram();
}, 60_000);

async function setUp(files: Readonly<Record<string, string>>): Promise<Repository> {
  const repository = makeRepository();
  const { status, error } = await runProgram(program, ["git", "install"], { folder: repository.folder });
  expect([status, error]).toEqual([0, ""]);
  repository.commit(files);
  return repository;
}

interface Case {
  readonly title: string;
  readonly name: string;
  readonly before: string;
  readonly after: string;
  readonly heads: readonly string[];
}

/** Scripts as they stand in the file: `-|` a line that goes, `+|` one that comes, below `--- heads` those of the diff. */
const cases = readFileSync(new URL("heads.txt", import.meta.url), "utf8")
  .split(/^### /m)
  .slice(1)
  .map(caseOf);

function caseOf(written: string): Case {
  const [, title = "", name = "", lines = "", heads = ""] =
    /^(.*)\n=== (.*)\n([\s\S]*?)--- heads\n([\s\S]*)\n$/.exec(written) ?? [];
  const side = (leaveOut: string) =>
    lines
      .split("\n")
      .filter((line) => !line.startsWith(leaveOut))
      .map((line) => line.replace(/^[-+]\|/, ""))
      .join("\n")
      .replaceAll("\\r", "\r")
      .replaceAll("\\ufeff", "\ufeff");
  return { title, name, before: side("+|"), after: side("-|"), heads: heads.split("\n").slice(0, -1) };
}

/** The text as bytes: `\xff` stands for a byte that no text has. */
function bytesOf(text: string): Buffer {
  return Buffer.concat(
    text.split("\\xff").flatMap((part, i) => [...(i > 0 ? [Buffer.from([0xff])] : []), Buffer.from(part)]),
  );
}

/** The file that a part of a diff is about; git quotes a name with quotes in it. */
function nameIn(part: string): string {
  const [, quoted, plain = ""] = /^\+\+\+ (?:"b\/(.*)"|b\/(.*?))\t?$/m.exec(part) ?? [];
  return quoted?.replaceAll('\\"', '"') ?? plain;
}

/** The heads of the pieces of a diff, by file. */
function headsIn(diff: string): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const part of diff.split(/^diff --git /m).slice(1))
    found.set(
      nameIn(part),
      [...part.matchAll(/^@@ .*? @@ ?(.*)$/gm)].map(([, head = ""]) => head),
    );
  return found;
}

test("each piece of a diff is headed by its section and the craft", async () => {
  expect(cases.length).toBeGreaterThanOrEqual(25);
  const { folder, git, commit } = await setUp({});
  for (const { name, before } of cases) writeFileSync(join(folder, name), bytesOf(before));
  commit({});
  for (const { name, after } of cases) writeFileSync(join(folder, name), bytesOf(after));
  const heads = headsIn(git("diff"));
  const shown = cases.map(({ title, name }) => [title, heads.get(name) ?? []]);
  expect(shown).toEqual(cases.map(({ title, heads: expected }) => [title, expected]));
}, 120_000);

const mug = (warn = "3.5", arm = "TL is down") => `craft "Mug"

pack
  cells 6
  capacity 1100 mAh
  full-at 4.2 V/cell
  reserve 20 %
  warn-at ${warn} V/cell

modes
  arm when ${arm}
`;

test("git log -p, git show and git diff leave out what is only layout; words can be told apart", async () => {
  const repository = await setUp({ "mug.fettle": mug() });
  const { git, commit } = repository;
  commit({ "mug.fettle": mug().replace(/^ {2}(\S+) /gm, "     $1       ") }, "laid out anew");
  commit({ "mug.fettle": mug("3.6").replace(/^ {2}(\S+) /gm, "     $1       ") }, "warn earlier");
  expect(git("diff", "HEAD~2", "HEAD~1")).toBe("");
  const changed = /^@@ .* @@ pack {2}# of Mug\n[\s\S]*^- {2}warn-at {3}3\.5 V\/cell\n\+ {2}warn-at {3}3\.6 V\/cell$/m;
  expect(git("show")).toMatch(changed);
  const log = git("log", "-p", "--format=== %s", "--", "mug.fettle");
  expect(log).toMatch(changed);
  expect(log.match(/^@@/gm)).toHaveLength(2);
  expect(git("diff", "--word-diff", "HEAD~1")).toContain("[-3.5-]{+3.6+} V/cell");
  expect(git("log", "-L", ":pack:mug.fettle", "--format=%s", "-s")).toContain("warn earlier");
  expect(git("diff", "--no-textconv", "HEAD~2", "HEAD~1")).toContain("+     cells       6");
  const blame = git("blame", "-s", "mug.fettle").split("\n");
  expect(blame).toHaveLength(12);
  expect(blame.find((line) => line.includes("warn-at"))).toContain(
    git("rev-parse", "--short=8", "HEAD").trim().slice(0, 7),
  );
}, 60_000);

test("git add -p, git stash, patches and what is committed have the bytes as they are", async () => {
  const { folder, git } = await setUp({ "mug.fettle": mug() });
  const laid = mug("3.6", "TL is up").replace("  cells 6", "  cells      6");
  writeFileSync(join(folder, "mug.fettle"), laid);
  const { stdout, status } = spawnSync("git", ["add", "-p"], { cwd: folder, input: "y\n", encoding: "utf8" });
  expect([status, stdout]).toEqual([0, expect.stringContaining("+  cells      6\n")]);
  expect(git("show", ":mug.fettle")).toBe(laid);
  git("stash", "-q");
  expect(readFileSync(join(folder, "mug.fettle"), "utf8")).toBe(mug());
  git("stash", "pop", "-q");
  expect(readFileSync(join(folder, "mug.fettle"), "utf8")).toBe(laid);
  git("commit", "-q", "-a", "-m", "more");
  const patch = git("format-patch", "-1", "--stdout");
  git("reset", "-q", "--hard", "HEAD~1");
  const applied = spawnSync("git", ["apply"], { cwd: folder, input: patch });
  expect(applied.status).toBe(0);
  expect(readFileSync(join(folder, "mug.fettle"), "utf8")).toBe(laid);
}, 60_000);

/** Two branches that both changed a script, on the first of them. */
function parted({ git, commit }: Repository, ours: string, theirs: string): void {
  git("checkout", "-q", "-b", "side");
  commit({ "mug.fettle": theirs }, "theirs");
  git("checkout", "-q", "main");
  commit({ "mug.fettle": ours }, "ours");
}

test("merge, rebase and cherry-pick put neighbouring lines together, and mark one entry that both changed", async () => {
  for (const action of [
    ["merge", "-q", "--no-edit", "side"],
    ["rebase", "-q", "side"],
    ["cherry-pick", "side"],
  ]) {
    const repository = await setUp({ "mug.fettle": mug() });
    const { folder, git } = repository;
    parted(repository, mug().replace("cells 6", "cells 4"), mug().replace("1100", "1300"));
    git(...action);
    const merged = readFileSync(join(folder, "mug.fettle"), "utf8");
    expect(merged).toBe(mug().replace("cells 6", "cells 4").replace("1100", "1300"));
  }
  const clash = await setUp({ "mug.fettle": mug() });
  parted(clash, mug("3.6"), mug("3.7"));
  expect(() => clash.git("merge", "side")).toThrow();
  const marked = readFileSync(join(clash.folder, "mug.fettle"), "utf8");
  expect(marked).toMatch(/^<{7} .*\n {2}warn-at 3\.6 V\/cell\n={7}\n {2}warn-at 3\.7 V\/cell\n>{7} /m);
  expect(clash.git("diff", "--name-only", "--diff-filter=U")).toBe("mug.fettle\n");
}, 120_000);

test("where the program is gone, git shows scripts as they are and merges them line by line", async () => {
  const repository = await setUp({ "mug.fettle": mug() });
  const { folder, git } = repository;
  parted(repository, mug("3.6"), mug("3.5", "TL is up"));
  const away = `${program}.away`;
  renameSync(program, away);
  try {
    expect(git("show", "side")).toMatch(/^@@ .* @@ pack\n[\s\S]*^\+ {2}arm when TL is up$/m);
    git("merge", "-q", "--no-edit", "side");
    expect(readFileSync(join(folder, "mug.fettle"), "utf8")).toBe(mug("3.6", "TL is up"));
    git("checkout", "-q", "-b", "third", "HEAD~2");
    writeFileSync(join(folder, "mug.fettle"), mug("3.9"));
    git("commit", "-q", "-a", "-m", "third");
    expect(() => git("merge", "main")).toThrow();
    expect(readFileSync(join(folder, "mug.fettle"), "utf8")).toContain("<<<<<<<");
  } finally {
    renameSync(away, program);
  }
  // A Node that is gone as well: the one of the shell is taken.
  git(
    "config",
    "diff.fettle.textconv",
    git("config", "diff.fettle.textconv")
      .trim()
      .replace(/^n='[^']*'/, "n='/gone/node'"),
  );
  expect(git("show", "side")).toMatch(/^@@ .* @@ .*# of Mug$/m);
}, 120_000);

test("a script that cannot be merged by entries is left to git: nothing of either side is lost", async () => {
  const repository = await setUp({ "mug.fettle": `${mug()}# \u0000\n` });
  parted(repository, `${mug("3.6")}# \u0000\n`, `${mug("3.5", "TL is up")}# \u0000\n`);
  const { status } = spawnSync("git", ["merge", "-q", "--no-edit", "side"], { cwd: repository.folder });
  const text = readFileSync(join(repository.folder, "mug.fettle"), "utf8");
  expect(status === 0 ? text.includes("3.6") && text.includes("TL is up") : text.includes("3.6")).toBe(true);
  expect(existsSync(join(repository.folder, "mug.fettle"))).toBe(true);
  rmSync(join(repository.folder, "mug.fettle"));
}, 60_000);
