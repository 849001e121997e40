/**
 * Each call by which a command writes fails, one after another and in every way that a disk has: what was there stays
 * whole, one message says what, why and what to do, and nothing is left beside. Or the program ends there, and what is
 * left beside goes with the next run.
 */
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../../cli/held.ts";
import { lastsMsOr } from "../amount.ts";
import { type Breaking, onBrokenDisk } from "./broken-disk.ts";
import { changedBetween, contentsOf, isPart, putBack } from "./folders.ts";
import { folderForWriter, WRITERS, type Writer } from "./writers.ts";

const IS_LONG = lastsMsOr(0) > 0;
const CODES = ["ENOSPC", "EIO", "EROFS", "EACCES", "EMFILE", "EDQUOT"] as const;
const WHY =
  /^fettle: .*cannot be written: (?:the disk is full: make room and run it again|the disk does not take it: it may be damaged, or gone|the disk is read-only|this user may not write there|too many files are open on this machine: run it again later)\n$/;

async function call(args: readonly string[], folder: string) {
  const io = held(folder, "");
  const status = await run(args, io);
  return { status, error: io.errorText() };
}

/**
 * Runs a command with each of its calls broken in turn, or with each `step`th, until none is; what it leaves is held by
 * `expectOf`. Gives the number of the last.
 */
async function eachCall(
  args: readonly string[],
  folder: string,
  breaking: Omit<Breaking, "at">,
  expectOf: (outcome: { status: number; error: string }, at: number) => Promise<void>,
  step = 1,
): Promise<number> {
  const before = contentsOf(folder);
  for (let at = step; ; at += step) {
    const { result, isBroken } = await onBrokenDisk({ ...breaking, at }, () => call(args, folder));
    if (!isBroken) return at - step;
    await expectOf(result, at);
    putBack(folder, before);
  }
}

/** All of them for each way to write; one for what writes as others do, and where git runs as a program of its own. */
const codesFor = ({ own, args }: Writer) => CODES.slice(0, args[0] === "git" ? 1 : own || IS_LONG ? CODES.length : 1);

test.each(WRITERS)("$name", async (writer) => {
  const { args, before: first, targets, keeps } = writer;
  const folder = folderForWriter();
  if (first) await call(first, folder);
  const before = contentsOf(folder);
  const usual = await call(args, folder);
  expect([0, 1], usual.error).toContain(usual.status);
  const after = contentsOf(folder);
  putBack(folder, before);

  const expectWhole = (what: string) => {
    const now = contentsOf(folder);
    const changed = changedBetween(before, now).filter((path) => !isPart(path));
    expect(changed.filter((path) => !targets.includes(path))).toEqual([]);
    for (const path of changed) expect(now.get(path), `${what}: ${path}`).toBe(after.get(path));
    return { changed, parts: [...now.keys()].filter(isPart) };
  };
  const step = IS_LONG ? 1 : writer.sparse;
  let calls = 0;
  for (const how of codesFor(writer))
    calls += await eachCall(
      args,
      folder,
      { how },
      async ({ status, error }, at) => {
        const { changed, parts } = expectWhole(`${how} at ${at}`);
        if (status === usual.status) {
          // It was of no account, such as the removal of what was moved by then.
          expect(changed, `${how} at ${at}`).toEqual([...targets].sort());
          return;
        }
        expect(status).toBe(2);
        const told = error.split(/(?<=\n)/).filter((line) => /cannot be written/.test(line));
        expect(told, error).toEqual([expect.stringMatching(WHY)]);
        expect(parts, `${how} at ${at}`).toEqual([]);
      },
      step,
    );
  expect(calls).toBeGreaterThan(3);

  await eachCall(
    args,
    folder,
    { how: "dead" },
    async (_, at) => {
      expectWhole(`dead at ${at}`);
      const next = await call(args, folder);
      if (/remove .*config\.lock/.test(next.error)) return;
      if (keeps && next.status === 2) expect(next.error).toMatch(/is there already/);
      else expect(next.status, next.error).toBe(usual.status);
      expect(changedBetween(after, contentsOf(folder)).filter((path) => !isPart(path))).toEqual([]);
    },
    step,
  );
});

test("a new file on a disk without hard links is whole, or for a moment empty", async () => {
  const folder = folderForWriter();
  const args = ["new", "handset", "--answers", "handset.json", "--out", "kiln.fettle"];
  const before = contentsOf(folder);
  expect((await onBrokenDisk({ at: 99, how: "EIO", links: "none" }, () => call(args, folder))).result.status).toBe(0);
  const whole = contentsOf(folder).get("kiln.fettle");
  expect((await call(args, folder)).error).toMatch(/is there already/);
  putBack(folder, before);
  await eachCall(args, folder, { how: "ENOSPC", links: "none" }, async ({ status }) => {
    if (status === 2) expect(changedBetween(before, contentsOf(folder))).toEqual([]);
    else expect(contentsOf(folder).get("kiln.fettle")).toBe(whole);
  });
  await eachCall(args, folder, { how: "dead", links: "none" }, async () => {
    expect([undefined, "", whole]).toContain(contentsOf(folder).get("kiln.fettle"));
  });
});
