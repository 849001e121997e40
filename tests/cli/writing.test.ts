/** What becomes of links, rights and files that are no files where a command writes, and of what a killed run left. */
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { beforeEach, expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { type HeldIo, held } from "./held.ts";
import { folderOf } from "./program.ts";
import { jug, shed } from "./shed.ts";

const askew = jug.replace("arm  when", "arm    when");

let folder: string;
beforeEach(async () => {
  folder = await folderOf({ ...shed, "craft/askew.fettle": askew });
});
const at = (path: string) => join(folder, path);
const text = (path: string) => readFileSync(at(path), "utf8");

async function call(args: readonly string[], io: HeldIo = held(folder, "")) {
  const status = await run(args, io);
  return { status, error: io.errorText() };
}
const SHARED = ["share", "craft/jug.fettle", "--out"];

test("a link stays, and the file that it leads to is replaced, out of the folder too", async () => {
  const elsewhere = await folderOf({ "kept.fettle": "old\n" });
  mkdirSync(at("links"));
  symlinkSync("../craft/askew.fettle", at("links/askew.fettle"));
  symlinkSync("askew.fettle", at("links/again.fettle"));
  symlinkSync(join(elsewhere, "kept.fettle"), at("out.fettle"));
  symlinkSync(join(elsewhere, "made.fettle"), at("new.fettle"));
  expect((await call(["format", "links/again.fettle"])).status).toBe(0);
  expect(text("craft/askew.fettle")).toBe(jug);
  for (const out of ["out.fettle", "new.fettle"]) expect((await call([...SHARED, out])).status).toBe(0);
  for (const link of ["links/askew.fettle", "links/again.fettle", "out.fettle", "new.fettle"])
    expect(lstatSync(at(link)).isSymbolicLink(), link).toBe(true);
  expect(readlinkSync(at("links/again.fettle"))).toBe("askew.fettle");
  expect(readFileSync(join(elsewhere, "kept.fettle"), "utf8")).toContain('craft "Jug"');
  expect(readFileSync(join(elsewhere, "made.fettle"), "utf8")).toContain('craft "Jug"');
});

test("links in a circle are told of where one reads and where one writes", async () => {
  symlinkSync("b.fettle", at("a.fettle"));
  symlinkSync("a.fettle", at("b.fettle"));
  const why = "the links that lead to it go in a circle";
  expect(await call(["format", "a.fettle"])).toEqual({ status: 2, error: `fettle: a.fettle: ${why}\n` });
  expect(await call([...SHARED, "a.fettle"])).toEqual({
    status: 2,
    error: expect.stringContaining(`a.fettle cannot be written: ${why}\n`),
  });
});

test("rights stay, and another name of the same file keeps the old text", async () => {
  chmodSync(at("craft/askew.fettle"), 0o640);
  linkSync(at("craft/askew.fettle"), at("craft/second.txt"));
  expect((await call(["format", "craft/askew.fettle"])).status).toBe(0);
  expect(statSync(at("craft/askew.fettle")).mode & 0o777).toBe(0o640);
  expect(text("craft/second.txt")).toBe(askew);
});

test("a read-only file is not replaced", async () => {
  chmodSync(at("craft/askew.fettle"), 0o444);
  expect(await call(["format", "craft/askew.fettle"])).toEqual({
    status: 2,
    error: expect.stringMatching(/askew\.fettle:.* cannot be written: it is read-only: make it writable first\n$/),
  });
  expect(text("craft/askew.fettle")).toBe(askew);
});

test.runIf(existsSync("/dev/null"))("what is no file is written as it is", async () => {
  expect((await call([...SHARED, "/dev/null"])).status).toBe(0);
  expect(statSync("/dev/null").isCharacterDevice()).toBe(true);
});

test("a folder below a file cannot be made, in words", async () => {
  expect(await call(["reference", "--out", "craft/jug.fettle"])).toEqual({
    status: 2,
    error: expect.stringMatching(/^fettle: .* cannot be written: it lies below a file\n$/),
  });
});

test("what a run left that was killed is no script, and goes with the next; what another writes stays", async () => {
  // No system gives a process such a number.
  const [left, others] = ["craft/.fettle-99999999.part", `craft/.fettle-${process.ppid}.part`];
  for (const part of [left, others]) writeFileSync(at(part), askew);
  expect((await call(["format", "craft"])).error).not.toContain(".part");
  expect([existsSync(at(left)), existsSync(at(others))]).toEqual([false, true]);
});

test("a file that is changed while others are laid out is left alone", async () => {
  writeFileSync(at("craft/bent.fettle"), askew);
  const io = held(folder, "");
  const saved = `${askew}# of this moment\n`;
  const out = (told: string | Uint8Array) => {
    if (String(told).includes("askew")) writeFileSync(at("craft/bent.fettle"), saved);
    io.out(told);
  };
  expect(await call(["format", "craft"], { ...io, out })).toEqual({
    status: 2,
    error: "fettle: craft/bent.fettle: it was changed meanwhile, so it is not rewritten: run this again\n",
  });
  expect(text("craft/bent.fettle")).toBe(saved);
  expect(text("craft/askew.fettle")).toBe(jug);
});
