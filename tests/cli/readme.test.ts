/** The README names every command of the command line. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, symlinkSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { buildProgram, temporaryFolder } from "./program.ts";

test("every command that the help lists has its line in the README", async () => {
  const io = held("/", "");
  await run(["--help"], io);
  const commands = [...io.outText().matchAll(/^ {2}([a-z]+) {2,}/gm)].map(([, name = ""]) => name);
  expect(commands).toContain("check");
  const readme = readFileSync(inProject("README.md"), "utf8");
  expect(commands.filter((name) => !readme.includes(`node dist/fettle.js ${name} `))).toEqual([]);
});

test("the README's way from a board's text to the lines that it takes back runs as it stands", async () => {
  const readme = readFileSync(inProject("README.md"), "utf8");
  const script = /<!-- board -->\s*```sh\n([\s\S]*?)```/.exec(readme)![1]!;
  const folder = temporaryFolder();
  cpSync(inProject("examples"), `${folder}/examples`, { recursive: true });
  mkdirSync(`${folder}/.git`);
  symlinkSync((await buildProgram()).replace(/\/fettle\.js$/, ""), `${folder}/dist`);
  const { status, stdout, stderr } = spawnSync("sh", ["-e", "-c", script], { cwd: folder, encoding: "utf8" });
  expect([status, stderr]).toEqual([0, stderr]);
  expect(stdout).toContain("1 file: nothing found");
  expect(stdout).toMatch(/tide table, second printing\nthe bell at 178, all ashore at 165\nslack water\n$/);
  expect(readFileSync(`${folder}/shed/craft/board.fettle`, "utf8")).toContain("serial-inverted  no");
  expect(stderr).toContain("By craft/ebb.fettle: 3 lines to send");
});
