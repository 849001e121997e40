/** `fleet-habit` on the command line: over which craft it looks, and of which change it is. */
import { symlinkSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { makeRepository } from "./repository.ts";
import { wheel } from "./shed.ts";

const craft = (name: string, level: string) =>
  `craft "${name}"\nuse "../wheel.fettle"\nmodes\n  arm when TL is down\n  level when ${level}\n`;
const shed = {
  "wheel.fettle": wheel,
  "craft/cup.fettle": craft("Cup", "TR is mid"),
  "craft/jug.fettle": craft("Jug", "TR is mid"),
  "craft/urn.fettle": craft("Urn", "TR is down"),
};

/** The files with a finding of it. */
async function told(folder: string, ...args: string[]): Promise<string[]> {
  const io = held(folder, "");
  await run(["check", ...args, "--format", "json"], io);
  const { findings } = JSON.parse(io.outText()) as { findings: { code: string; file: string }[] };
  return findings.flatMap(({ code, file }) => (code === "fleet-habit" ? file : []));
}

test("in a folder that nobody marked as a workspace the craft that were named are compared", async () => {
  const folder = await folderOf(shed);
  expect(await told(folder)).toEqual(["craft/urn.fettle"]);
  expect(await told(folder, "craft/urn.fettle")).toEqual([]);
  expect(await told(folder, "craft/cup.fettle", "craft/jug.fettle", "craft/urn.fettle")).toEqual(["craft/urn.fettle"]);
});

test("in a workspace all of its craft are, whichever was named", async () => {
  const folder = await folderOf({ ...shed, ".fettle-root": "" });
  expect(await told(folder, "craft/urn.fettle")).toEqual(["craft/urn.fettle"]);
  expect(await told(folder, "craft/cup.fettle")).toEqual([]);
  expect(await told(folder, "wheel.fettle")).toEqual([]);
});

test("another handset in place of the craft's own is nobody's habit", async () => {
  const folder = await folderOf({ ...shed, ".fettle-root": "", "twin.fettle": wheel });
  expect(await told(folder, "craft", "--handset", "twin.fettle")).toEqual([]);
});

test("of a change it is told where the change brought it, be it on another craft", async () => {
  const { folder, git, write, commit } = makeRepository({ ...shed, "craft/urn.fettle": craft("Urn", "TR is mid") });
  expect(await told(folder, "--staged")).toEqual([]);
  write({ "craft/urn.fettle": craft("Urn", "TR is down") });
  expect(await told(folder, "--since", "HEAD")).toEqual(["craft/urn.fettle"]);
  expect(await told(folder, "--staged")).toEqual([]);
  git("add", "-A");
  expect(await told(folder, "--staged")).toEqual(["craft/urn.fettle"]);
  commit({});
  expect(await told(folder, "--since", "HEAD")).toEqual([]);
  // Two others take over what one craft had alone: now the first is otherwise.
  write({ "craft/cup.fettle": craft("Cup", "TR is down") });
  expect(await told(folder, "--since", "HEAD")).toEqual(["craft/jug.fettle"]);
  expect(await told(folder, "--since", "HEAD", "craft/jug.fettle")).toEqual(["craft/jug.fettle"]);
});

test("a craft that is reached by a link as well is counted once", async () => {
  const folder = await folderOf({ ...shed, ".fettle-root": "", "craft/urn.fettle": craft("Urn", "TR is down") });
  symlinkSync(`${folder}/craft/urn.fettle`, `${folder}/craft/vat.fettle`);
  symlinkSync(`${folder}/craft/urn.fettle`, `${folder}/craft/zinc.fettle`);
  expect(await told(folder, "craft")).toEqual(["craft/urn.fettle"]);
});
