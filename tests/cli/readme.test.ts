/** The README names every command of the command line. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";

test("every command that the help lists has its line in the README", async () => {
  const io = held("/", "");
  await run(["--help"], io);
  const commands = [...io.outText().matchAll(/^ {2}([a-z]+) {2,}/gm)].map(([, name = ""]) => name);
  expect(commands).toContain("check");
  const readme = readFileSync(inProject("README.md"), "utf8");
  expect(commands.filter((name) => !readme.includes(`node dist/fettle.js ${name} `))).toEqual([]);
});
