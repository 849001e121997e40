/**
 * git runs the merge driver, which is killed at each of its writing calls: git then merges line by line itself, or leaves
 * a merge that failed as its own do. Both sides are there whole in any case, and the next merge does its work.
 */
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { buildProgram, temporaryFolder } from "../../cli/program.ts";
import { makeRepository, type Repository } from "../../cli/repository.ts";
import { jug } from "../../cli/shed.ts";
import { GIT_ENV } from "../../git-env.ts";
import { lastsMsOr } from "../amount.ts";
import { runEnded } from "./ended.ts";
import { contentsOf, isPart } from "./folders.ts";

/** Both sides change neighbouring lines of one, which only the driver puts together, and the same line of the other. */
const TOGETHER = "craft/together.fettle";
const CLASH = "craft/clash.fettle";
const base = `${jug}\npack\n  cells     6\n  capacity  1100 mAh\n`;
const ours = { [TOGETHER]: base.replace("cells     6", "cells     4"), [CLASH]: base.replace("1100", "1500") };
const theirs = { [TOGETHER]: base.replace("1100", "1300"), [CLASH]: base.replace("1100", "1300") };

const IS_LONG = lastsMsOr(0) > 0;

let made: Repository;
beforeAll(async () => {
  const program = await buildProgram();
  made = makeRepository({ [TOGETHER]: base, [CLASH]: base });
  expect((await runEnded(program, ["git", "install"], made.folder)).status).toBe(0);
  made.commit({}, "set up");
  made.git("checkout", "-q", "-b", "shed");
  made.commit(theirs, "of the shed");
  made.git("checkout", "-q", "main");
  made.commit(ours, "of mine");
});

const read = (path: string) => readFileSync(join(made.folder, path), "utf8");
const readBoth = () => ({ [TOGETHER]: read(TOGETHER), [CLASH]: read(CLASH) });
const unmerged = () => made.git("diff", "--name-only", "--diff-filter=U").trim().split("\n");
const leftBeside = () =>
  [...contentsOf(made.folder).keys()].filter((path) => isPart(path) || /^\.merge_file/.test(path));

/** What git makes of a file by itself. */
function lineByLine(path: keyof typeof ours): string {
  const folder = temporaryFolder();
  const texts = { ours: ours[path]!, base, theirs: theirs[path]! };
  const paths = Object.entries(texts).map(([name, text]) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  });
  return spawnSync("git", ["merge-file", "-p", "-L", "ours", "-L", "base", "-L", "theirs", ...paths], {
    encoding: "utf8",
  }).stdout;
}

/** Merges the other branch; each driver is killed at its call of that number, or as it would end by itself. */
function merge(killedAt?: number | "end"): void {
  const preload = pathToFileURL(inProject("tests/fire/kill/preload.mjs")).href;
  const at = { FETTLE_CALLS: "writing", FETTLE_AT: String(killedAt), FETTLE_HOW: "kill" };
  const ending = killedAt !== undefined && { NODE_OPTIONS: `--import ${preload}`, ...at };
  const { status, stdout } = spawnSync("git", ["merge", "--no-edit", "shed"], {
    cwd: made.folder,
    env: { ...process.env, ...GIT_ENV, ...ending },
    encoding: "utf8",
  });
  expect(status, stdout).toBe(1);
}

test("a driver that is killed costs the driver's merge, and no line of either side", () => {
  merge();
  const whole = readBoth();
  expect(unmerged()).toEqual([CLASH]);
  expect(whole[TOGETHER]).toBe(base.replace("cells     6", "cells     4").replace("1100", "1300"));
  const alone = { [TOGETHER]: lineByLine(TOGETHER), [CLASH]: lineByLine(CLASH) };
  expect(alone[TOGETHER]).toContain("<<<<<<< ours\n");

  let hasLeft = false;
  const killed = (at: number | "end") => {
    made.git("merge", "--abort");
    expect(readBoth()).toEqual(ours);
    merge(at);
    if (unmerged().length === 1) return false;
    expect(readBoth()).toEqual(alone);
    return true;
  };
  const nextWorks = () => {
    made.git("merge", "--abort");
    merge();
    expect(readBoth()).toEqual(whole);
    expect(leftBeside()).toEqual([]);
  };
  expect(killed("end")).toBe(true);
  let calls = 0;
  while (killed(calls + 1)) {
    calls++;
    if (leftBeside().length === 0) continue;
    // What is left beside goes with the next one.
    if (!hasLeft || IS_LONG) nextWorks();
    hasLeft = true;
  }
  expect(readBoth()).toEqual(whole);
  expect([calls > 4, hasLeft, leftBeside()]).toEqual([true, true, []]);
});
