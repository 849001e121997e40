/** `fettle check --since` and `--staged` in repositories of all states. */
import { execFileSync } from "node:child_process";
import { mkdirSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { folderOf, temporaryFolder } from "../program.ts";
import { makeRepository } from "../repository.ts";
import { jug, wheel } from "../shed.ts";

const shed = { "handsets/wheel.fettle": wheel, "craft/jug.fettle": jug };
const faulty = `${jug}\npack\n  cells  99\n`;
const other = `${jug}\npack\n  capacity  850\n`;

async function check(folder: string, ...args: string[]) {
  const io = held(folder, args.includes("-") ? jug : "");
  const status = await run(["check", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

async function told(folder: string, ...args: string[]): Promise<string> {
  const { status, out, error } = await check(folder, ...args);
  return `${status} ${out}${error}`.trim();
}

test("the text says since when findings are new, and the exit status counts them alone", async () => {
  const { folder, write, git, commit } = makeRepository({ ...shed, "craft/cup.fettle": faulty });
  commit({}, "again");
  expect(await told(folder, "--since", "HEAD")).toBe("0 3 files, new since HEAD: nothing found");
  expect(await told(folder, "--since", "HEAD~1")).toBe("0 3 files, new since HEAD~1: nothing found");
  expect(await told(folder, "--staged")).toBe("0 3 files, new since the last commit: nothing found");
  expect((await check(folder)).status).toBe(1);
  write({ "craft/jug.fettle": faulty });
  expect(await told(folder, "--since", "HEAD")).toMatch(
    /^1 craft\/jug\.fettle:12:\d+ .*\n\n3 files, new since HEAD: 1 error$/,
  );
  expect(await told(folder, "--staged")).toBe("0 3 files, new since the last commit: nothing found");
  git("add", "craft/jug.fettle");
  expect(await told(folder, "--staged")).toMatch(/^1 craft\/jug\.fettle:12:/);
});

test("what is staged counts, and not what the working tree has besides", async () => {
  const { folder, write, git } = makeRepository(shed);
  write({ "craft/jug.fettle": faulty });
  git("add", "-A");
  write({ "craft/jug.fettle": other });
  expect(await told(folder, "--staged")).toMatch(/out-of-range/);
  expect(await told(folder, "--staged")).not.toMatch(/missing-unit/);
  expect(await told(folder, "--since", "HEAD")).toMatch(/missing-unit/);
  // A script that is staged, and gone from the disk.
  rmSync(join(folder, "craft/jug.fettle"));
  expect(await told(folder, "--staged", "craft/jug.fettle")).toMatch(/^1 craft\/jug\.fettle:12:/);
  expect(await told(folder, "--since", "HEAD", "craft/jug.fettle")).toBe(
    "2 fettle: craft/jug.fettle: there is no such file",
  );
  expect(await told(folder, "--staged", "craft/cup.fettle")).toBe("2 fettle: craft/cup.fettle: it is not staged");
});

test("--since with --staged holds what is staged against a revision", async () => {
  const { folder, write, git, commit } = makeRepository(shed);
  commit({ "craft/jug.fettle": faulty });
  write({ "craft/cup.fettle": other });
  git("add", "-A");
  expect(await told(folder, "--staged")).not.toMatch(/jug/);
  expect(await told(folder, "--staged", "--since", "HEAD~1")).toMatch(
    /cup\.fettle:12[\s\S]*jug\.fettle:12[\s\S]*new since HEAD~1: 2 errors/,
  );
});

test("before the first commit all that is staged is new, and no revision is there to hold it against", async () => {
  const { folder, write, git } = makeRepository();
  write({ ...shed, "craft/jug.fettle": faulty });
  expect(await told(folder, "--staged")).toBe("0 0 files, new since the last commit: nothing found");
  git("add", "-A");
  expect(await told(folder, "--staged")).toMatch(/^1 craft\/jug\.fettle:12:/);
  expect(await told(folder, "--since", "HEAD")).toBe(
    "2 fettle: --since HEAD: nothing has been committed in this repository yet",
  );
});

test("a revision that there is not is told in one line", async () => {
  const { folder, commit, git } = makeRepository(shed);
  commit({}, "two");
  git("branch", "side", "HEAD~1");
  for (const revision of ["nowhere", "HEAD~9", "-x", ":", ":0", "HEAD:craft", "deadbeef", "HEAD^9"]) {
    const { status, out, error } = await check(folder, `--since=${revision}`);
    expect([revision, status, out, error.split("\n").length]).toEqual([revision, 2, "", 2]);
    expect(error).toMatch(/^fettle: --since .*: git knows no revision “/);
  }
  expect(await told(folder, "--since", "main..side")).toMatch(/several revisions, and one is compared$/);
  expect(await told(folder, "--since", "side")).toMatch(/^0 /);
  expect(await told(folder, "--since", "HEAD^{tree}")).toMatch(/^0 /);
  expect(await told(folder, "--since")).toBe("2 fettle: --since needs a value after it");
});

test("outside of a repository, in a bare one, and from standard input", async () => {
  const alone = await folderOf(shed);
  expect(await told(alone, "--staged")).toBe("2 fettle: --staged: no git repository is around this folder");
  expect(await told(alone, "--since", "HEAD")).toMatch(/no git repository is around this folder$/);
  const { folder } = makeRepository(shed);
  const bare = join(temporaryFolder(), "bare.git");
  execFileSync("git", ["clone", "-q", "--bare", folder, bare]);
  for (const option of ["--staged", "--since=HEAD"])
    expect(await told(bare, option)).toMatch(
      /^2 fettle: .*no working tree is around this folder, as in a bare repository$/,
    );
  expect(await told(folder, "--staged", "-")).toMatch(/^2 fettle: “-” has no earlier state/);
});

test("a shallow clone says why a revision is not there", async () => {
  const { folder, commit } = makeRepository(shed);
  commit({}, "two");
  const clone = join(temporaryFolder(), "clone");
  execFileSync("git", ["clone", "-q", "--depth", "1", `file://${folder}`, clone]);
  expect(await told(clone, "--since", "HEAD")).toMatch(/^0 /);
  expect(await told(clone, "--since", "HEAD~1")).toMatch(/git fetch --unshallow/);
});

test("from a folder of the repository, by paths from there", async () => {
  const { folder, write, git } = makeRepository(shed);
  write({ "craft/jug.fettle": faulty });
  const craft = join(folder, "craft");
  expect(await told(craft, "--since", "HEAD")).toMatch(/^1 jug\.fettle:12:[\s\S]*1 file, new/);
  git("add", "-A");
  expect(await told(craft, "--staged")).toMatch(/^1 jug\.fettle:12:[\s\S]*1 file, new/);
  expect(await told(craft, "--staged", "..")).toMatch(/2 files, new/);
  expect(await told(join(folder, "handsets"), "--staged")).toMatch(/^0 1 file, new/);
});

test("scripts of a repository inside this one are in no revision of it", async () => {
  const inner = makeRepository({ "inner.fettle": faulty });
  const { folder, git } = makeRepository(shed);
  git("-c", "protocol.file.allow=always", "submodule", "add", "-q", inner.folder, "sub");
  expect(await told(folder, "--since", "HEAD")).toBe("0 2 files, new since HEAD: nothing found");
  expect(await told(folder, "--staged")).toBe("0 2 files, new since the last commit: nothing found");
  expect(await told(folder, "--since", "HEAD", "sub/inner.fettle")).toMatch(
    /^2 fettle: sub\/inner\.fettle: it belongs to another/,
  );
  expect(await told(join(folder, "sub"), "--since", "HEAD")).toMatch(/^0 1 file, new/);
  // A folder of theirs is refused as a file is.
  for (const other of ["sub", inner.folder])
    expect(await told(folder, "--since", "HEAD", other)).toMatch(/^2 fettle: .+: it belongs to another repository/);
});

test("in a linked working tree, and by a link to the repository", async () => {
  const { folder, git } = makeRepository(shed);
  const linked = join(temporaryFolder(), "linked");
  git("worktree", "add", "-q", linked);
  renameSync(join(linked, "craft/jug.fettle"), join(linked, "craft/mug.fettle"));
  expect(await told(linked, "--since", "HEAD")).toMatch(/^0 2 files/);
  const link = join(temporaryFolder(), "link");
  symlinkSync(folder, link);
  expect(await told(link, "--since", "HEAD")).toMatch(/^0 2 files/);
  expect(await told(link, "--staged", join(link, "craft"))).toMatch(/^0 1 file/);
});

test("a conflict that nobody has settled is told", async () => {
  const { folder, git, commit } = makeRepository(shed);
  git("checkout", "-q", "-b", "side");
  commit({ "craft/jug.fettle": `${jug}\npack\n  cells  4\n` });
  git("checkout", "-q", "main");
  commit({ "craft/jug.fettle": `${jug}\npack\n  cells  6\n` });
  expect(() => git("merge", "side")).toThrow();
  expect(await told(folder, "--staged")).toMatch(/craft\/jug\.fettle is in conflict: resolve it and stage it first$/);
  expect(await told(folder, "--since", "HEAD")).toMatch(/^1 craft\/jug\.fettle/);
});

test("a folder marked as a workspace of its own, a link to a script, and one that git does not know yet", async () => {
  const { folder, write, git } = makeRepository({ ...shed, "friend/.fettle-root": "", "friend/a.fettle": faulty });
  symlinkSync("jug.fettle", join(folder, "craft/tankard.fettle"));
  write({ "craft/jug.fettle": faulty, "new/b.fettle": faulty });
  expect(await told(folder, "--since", "HEAD")).toMatch(/jug\.fettle:12[\s\S]*new\/b\.fettle:12[\s\S]*4 files/);
  git("add", "-A");
  expect(await told(folder, "--staged")).toMatch(/jug\.fettle:12[\s\S]*new\/b\.fettle:12[\s\S]*4 files/);
  mkdirSync(join(folder, "empty"));
  expect(await told(folder, "--staged", "empty")).toMatch(/^0 0 files/);
});

test("several marked folders are held each against itself, from the folder above them", async () => {
  const { folder, write } = makeRepository({
    "mill/.fettle-root": "",
    "mill/jug.fettle": faulty,
    "quay/.fettle-root": "",
    "quay/deep/jug.fettle": other,
    "rack/jug.fettle": faulty,
  });
  expect(await told(folder, "--since", "HEAD")).toBe("0 3 files, new since HEAD: nothing found");
  write({ "quay/deep/jug.fettle": faulty });
  expect(await told(folder, "--since", "HEAD")).toMatch(/^1 quay\/deep\/jug\.fettle:12:[^\n]*\n\n3 files/);
});

test("a craft with checks on the bench whose folder is gone, or has another name", async () => {
  const checked = `${faulty}\nbench\n  mount-checked  2026-02-01\n`;
  const { folder, git } = makeRepository({ "craft/old/jug.fettle": checked, "craft/old/mug.fettle": checked });
  rmSync(join(folder, "craft/old/mug.fettle"));
  renameSync(join(folder, "craft"), join(folder, "kept"));
  expect(await told(folder, "--since", "HEAD")).toBe("0 1 file, new since HEAD: nothing found");
  git("add", "-A");
  expect(await told(folder, "--staged")).toBe("0 1 file, new since the last commit: nothing found");
});

test("json and SARIF hold the same findings as the text", async () => {
  const { folder, write } = makeRepository({ ...shed, "craft/cup.fettle": faulty });
  write({ "craft/jug.fettle": faulty });
  const { findings, summary } = JSON.parse((await check(folder, "--since", "HEAD", "--format", "json")).out);
  expect(findings).toMatchObject([{ code: "out-of-range", file: "craft/jug.fettle" }]);
  expect(summary).toEqual({ files: 3, errors: 1, warnings: 0, infos: 0, hints: 0 });
  const [only] = JSON.parse((await check(folder, "--since", "HEAD", "--format", "sarif")).out).runs;
  expect(only.results).toMatchObject([{ ruleId: "out-of-range", baselineState: "new" }]);
});
