// npm run fire -- NAME… [--cases N] [--minutes N] [--seed N] [--only N]: what `npm test` does under fire, for as long as one likes.
import { existsSync, readdirSync } from "node:fs";
import { parseArgs } from "node:util";
import { build } from "./build.mjs";
import { fail, inProject, runTool, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

const FOLDERS = ["tests/fire", "tests/e2e/fire"].filter((folder) => existsSync(inProject(folder)));

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cases: { type: "string" },
    minutes: { type: "string" },
    seed: { type: "string" },
    only: { type: "string" },
  },
});
const tests = FOLDERS.flatMap((folder) =>
  readdirSync(inProject(folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".test.ts"))
    .map((name) => `${folder}/${name.replaceAll("\\", "/")}`),
);
const chosen = tests.filter((path) => positionals.some((part) => path.includes(`fire/${part}`)));
if (chosen.length === 0) fail(`Say what is to be tried, one or more of:\n${tests.join("\n")}`);
for (const [name, value] of Object.entries(values))
  if (!(Number(value) >= 0)) fail(`--${name} takes a number, and “${value}” is none.`);

await setUp();
await build("plain");
/** @type {Record<string, string>} */
const env = { FETTLE_BUILT: "1" };
for (const [name, value] of Object.entries(values)) env[`FETTLE_FIRE_${name.toUpperCase()}`] = String(value);
say(`Trying ${chosen.join(", ")} …`);
const args = ["run", "--project", "fire", "--project", "e2e", "--testTimeout=0", ...chosen];
process.exitCode = await runTool("vitest/vitest.mjs", args, env);
