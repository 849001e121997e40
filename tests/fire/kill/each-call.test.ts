/**
 * Whatever writes is killed at each of its writing calls, one after another until it ends by itself: every file is the
 * old one or the new one, and the next run does its work and leaves nothing behind.
 */
import { rmSync, symlinkSync } from "node:fs";
import { dirname, join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { buildProgram } from "../../cli/program.ts";
import { lastsMsOr } from "../amount.ts";
import { runEnded } from "./ended.ts";
import { type Contents, changedBetween, contentsOf, isPart, putBack } from "./folders.ts";
import { folderForWriter, WRITERS, type Writer } from "./writers.ts";

/** Most write by the same few lines; `failing-calls.test.ts` tries them in less time. */
const IS_LONG = lastsMsOr(0) > 0;
const KILLED = WRITERS.filter(({ own }) => own || IS_LONG);

let program: string;
beforeAll(async () => {
  program = await buildProgram();
  // The package that makes pixels is brought along by npm.
  symlinkSync(inProject("node_modules"), join(dirname(program), "node_modules"), "junction");
});

/** A folder for a command, as it is before it and as it is after it. */
async function prepared({ args, before: first, targets }: Writer) {
  const folder = folderForWriter();
  if (first) await runEnded(program, first, folder);
  const before = contentsOf(folder);
  const { status, error } = await runEnded(program, args, folder);
  expect([0, 1], error).toContain(status);
  const after = contentsOf(folder);
  expect(changedBetween(before, after)).toEqual([...targets].sort());
  putBack(folder, before);
  return { folder, before, after, status };
}

/** Holds what lies there to the old or the new of each file that is written, and to the old of all others. */
function expectWhole(folder: string, before: Contents, after: Contents, targets: readonly string[]): void {
  const now = contentsOf(folder);
  const changed = changedBetween(before, now).filter((path) => !isPart(path));
  expect(changed.filter((path) => !targets.includes(path))).toEqual([]);
  for (const path of changed) expect(now.get(path), path).toBe(after.get(path));
}

test.concurrent.each(KILLED)("$name", async (writer) => {
  const { folder, before, after, status } = await prepared(writer);
  const step = writer.sparse ?? 1;
  for (let at = step; ; at += step) {
    const ended = await runEnded(program, writer.args, folder, { calls: "writing", at, how: "kill" });
    if (ended.signal === null) {
      expect(ended.status).toBe(status);
      expect(at).toBeGreaterThan(4);
      break;
    }
    expect(ended.signal).toBe("SIGKILL");
    expectWhole(folder, before, after, writer.targets);
    await expectGoesOn(writer, folder, after, status);
    putBack(folder, before);
  }
});

/** The next run does the work, and nothing is left beside; or it says what keeps it. */
async function expectGoesOn(
  { args, keeps, targets }: Writer,
  folder: string,
  after: Contents,
  status: number | null,
): Promise<void> {
  let next = await runEnded(program, args, folder);
  const lock = /remove (.*config\.lock)$/m.exec(next.error)?.[1];
  if (lock) {
    // As after git itself was killed.
    expect(next.status).toBe(2);
    rmSync(lock);
    next = await runEnded(program, args, folder);
  }
  if (keeps && next.status === 2) {
    expect(next.error).toMatch(/is there already/);
    // What is left beside goes with the next that is written there.
    await runEnded(program, ["new", "--answers", "craft.json", "--out", "another.fettle"], folder);
    rmSync(join(folder, "another.fettle"), { force: true });
  } else expect(next, next.error).toMatchObject({ status, signal: null });
  const now = contentsOf(folder);
  expect([...now.keys()].filter(isPart)).toEqual([]);
  for (const path of targets) expect(now.get(path), path).toBe(after.get(path));
}
