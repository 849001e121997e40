/** The command line where the disk is full, its folder or its readers are gone, another user owns the place, or two run at once. */
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { buildProgram, folderOf } from "../../cli/program.ts";
import { jug, shed } from "../../cli/shed.ts";
import { runEnded } from "./ended.ts";
import { changedBetween, contentsOf, isPart } from "./folders.ts";
import { folderForWriter, WRITERS } from "./writers.ts";

let program: string;
beforeAll(async () => {
  program = await buildProgram();
});

const askew = jug.replace("arm  when", "arm    when");
const many = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`craft/craft-${i}.fettle`, askew]));
const MANY = Object.keys(many);

/** Runs a command of the shell, in which $FETTLE is the program. */
function shell(command: string, folder: string, uid?: number) {
  const env = { ...process.env, NODE: process.execPath, FETTLE: program };
  return spawnSync("sh", ["-c", command], { cwd: folder, env, encoding: "utf8", ...(uid !== undefined && { uid }) });
}

test("work is done whole, and its status told, where nobody reads what it prints", async () => {
  for (const [reader, streams] of [
    ["head -n 1", ""],
    ["true", "2>&-"],
  ]) {
    const folder = await folderOf({ ...shed, ...many });
    const { stderr } = shell(`{ "$NODE" "$FETTLE" format craft ${streams}; echo $? > status; } | ${reader}`, folder);
    expect(stderr).toBe("");
    expect(readFileSync(join(folder, "status"), "utf8")).toBe("0\n");
    for (const path of MANY) expect(readFileSync(join(folder, path), "utf8")).toBe(jug);
  }
  const folder = await folderOf(shed);
  const { stdout, stderr } = shell(`{ "$NODE" "$FETTLE" check; echo $? > status; } | head -n 1`, folder);
  expect(stderr).toBe("");
  expect(stdout.split("\n")).toHaveLength(2);
  expect(readFileSync(join(folder, "status"), "utf8")).toBe("1\n");
});

test("a working folder that is gone, and standard input that is closed, are no riddle", async () => {
  const folder = await folderOf({ ...shed, "gone/x": "" });
  const gone = shell(`cd gone && rm -r ../gone && "$NODE" "$FETTLE" check`, folder);
  expect([gone.status, gone.stderr]).toEqual([
    2,
    expect.stringMatching(/^(fettle: the working folder is gone: .*\n)$/),
  ]);
  const closed = shell(`"$NODE" "$FETTLE" format - <&-`, folder);
  expect(closed.stderr).not.toMatch(/\n\s+at /);
});

const isRoot = process.getuid?.() === 0;
const NOBODY = 65534;

test.runIf(isRoot)("a folder of somebody else is told of, and nothing changes", async () => {
  const folder = await folderOf({ ...shed, "craft/askew.fettle": askew });
  // Whoever reads may, and the program's own folder is one of ours too.
  for (const path of [folder, join(folder, "craft"), dirname(program)]) chmodSync(path, 0o755);
  const { status, stderr } = shell(`"$NODE" "$FETTLE" format craft/askew.fettle`, folder, NOBODY);
  expect(status).toBe(2);
  expect(stderr).toMatch(/^fettle: .*askew\.fettle.*: this user may not write there\n$/);
  expect(readFileSync(join(folder, "craft/askew.fettle"), "utf8")).toBe(askew);
});

let mounted: string | null = null;
afterEach(() => {
  if (mounted) execFileSync("umount", [mounted]);
  mounted = null;
});

/** A disk of 64 kB in a folder; null where none may be mounted. */
async function smallDisk(): Promise<string | null> {
  const folder = await folderOf({ "disk/x": "" });
  const disk = join(folder, "disk");
  const { status } = spawnSync("mount", ["-t", "tmpfs", "-o", "size=64k", "tmpfs", disk]);
  if (status !== 0) return null;
  mounted = disk;
  return disk;
}

test("a disk that is full keeps what it has", async ({ skip }) => {
  const disk = await smallDisk();
  if (disk === null) return skip("no file system may be mounted here");
  mkdirSync(join(disk, "craft"));
  writeFileSync(join(disk, "craft/askew.fettle"), askew);
  const filler = join(disk, "filler");
  try {
    writeFileSync(filler, "x".repeat(65_536));
  } catch {
    // It is full now.
  }
  const args = ["format", "craft/askew.fettle"];
  const { status, error } = await runEnded(program, args, disk);
  expect([status, error]).toEqual([2, expect.stringMatching(/: the disk is full: make room and run it again\n$/)]);
  expect(readFileSync(join(disk, "craft/askew.fettle"), "utf8")).toBe(askew);
  rmSync(filler);
  expect((await runEnded(program, args, disk)).status).toBe(0);
  expect(readFileSync(join(disk, "craft/askew.fettle"), "utf8")).toBe(jug);
});

const TWICE = WRITERS.filter(({ name }) =>
  ["format", "merge", "new handset", "git install", "git remove"].includes(name),
);

test.each(TWICE)("two at once: $name", async ({ args, before: first, targets, keeps }) => {
  const folder = folderForWriter();
  if (first) await runEnded(program, first, folder);
  const before = contentsOf(folder);
  const ended = await Promise.all([runEnded(program, args, folder), runEnded(program, args, folder)]);
  // One of them may find that the other has it in hand, and says so of each file.
  for (const { status, error } of ended)
    if (status !== 0) expect([status, error]).toEqual([2, expect.stringMatching(/^(?:fettle: [^\n]+\n)+$/)]);
  const well = ended.filter(({ status }) => status === 0).length;
  if (keeps) expect(well).toBe(1);
  // Of several files each may find one in the other's hand.
  else if (targets.length === 1) expect(well).toBeGreaterThan(0);
  const both = contentsOf(folder);
  expect(changedBetween(before, both)).toEqual([...targets].sort());
  expect([...both.keys()].filter(isPart)).toEqual([]);
  const alone = folderForWriter();
  if (first) await runEnded(program, first, alone);
  await runEnded(program, args, alone);
  const once = contentsOf(alone);
  for (const path of targets) expect(both.get(path), path).toBe(once.get(path));
});

test("it ends at random moments of its work, and every file is the old one or the new one", async () => {
  const folder = await folderOf({ ...shed, ...many });
  const begun = performance.now();
  await runEnded(program, ["format", "craft"], folder);
  const lastsMs = performance.now() - begun;
  for (let i = 0; i < 5; i++) {
    for (const path of MANY) writeFileSync(join(folder, path), askew);
    const child = spawn(process.execPath, [program, "format", "craft"], { cwd: folder, stdio: "ignore" });
    const gone = new Promise((resolve) => child.once("exit", resolve));
    // The last part of it is when it writes.
    setTimeout(() => child.kill("SIGKILL"), lastsMs * (0.4 + 0.12 * i));
    await gone;
    for (const path of MANY) expect([askew, jug]).toContain(readFileSync(join(folder, path), "utf8"));
  }
  await runEnded(program, ["format", "craft"], folder);
  expect([...contentsOf(folder).keys()].filter(isPart)).toEqual([]);
});
