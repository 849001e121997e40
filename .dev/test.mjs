// npm test: sets up, builds, and checks everything, in the real editor too if there is a browser.
import { build } from "./build.mjs";
import { findChromium, howToGetChromium } from "./chromium.mjs";
import { runEditorSuites } from "./editor-suites.mjs";
import { checkGenerated } from "./generate.mjs";
import { fail, runTool, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

/** @typedef {"passed" | "failed" | "skipped"} Outcome */

/** @type {[name: string, check: () => Promise<number>][]} */
const checks = [
  ["types", () => runTool("typescript/bin/tsc", ["-b"])],
  ["lint", () => runTool("@biomejs/biome/bin/biome", ["check"])],
  ["generated files", checkGenerated],
];

/** Random and hostile work of a bounded amount; `npm run fire` does more of it. */
const underFire = () => runTool("vitest/vitest.mjs", ["run", "--project", "fire", "--maxWorkers=2"]);

const unitTests = () => runTool("vitest/vitest.mjs", ["run", "--project", "unit", "--project", "client"]);

await setUp();
await build("plain");
/** @type {Outcome[]} */
const outcomes = [];
for (const [name, check] of checks) outcomes.push(await runCheck(name, check));
// The tests in the editor leave one core idle most of the time: the unit tests use it. What is tried under fire takes all
// that there is, from which the editor would suffer.
const inOrder = async () => [await inTheEditor(), await runCheck("under fire", underFire)];
outcomes.push(...(await Promise.all([inOrder(), runCheck("unit tests", unitTests)])).flat());
const count = (/** @type {Outcome} */ counted) => outcomes.filter((outcome) => outcome === counted).length;
const skipped = count("skipped") > 0 ? `, ${count("skipped")} skipped` : "";
console.log(`checks: ${count("passed")} passed, ${count("failed")} failed${skipped}`);
process.exitCode = count("failed") > 0 ? 1 : 0;

/** @returns {Promise<Outcome>} */
async function runCheck(/** @type {string} */ name, /** @type {() => Promise<number>} */ check) {
  say(`Checking: ${name} …`);
  const outcome = (await statusOf(check)) === 0 ? "passed" : "failed";
  say(`${name}: ${outcome}.`);
  return outcome;
}

/** A check that throws has failed; the others still run. */
async function statusOf(/** @type {() => Promise<number>} */ check) {
  try {
    return await check();
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return 1;
  }
}

/** @returns {Promise<Outcome>} */
async function inTheEditor() {
  if (findChromium()) {
    return runCheck("the real editor", runEditorSuites);
  }
  const message = `The tests in the real editor need a browser, and there is no Chromium here. ${howToGetChromium}`;
  if (process.env.FETTLE_NEEDS_BROWSER !== "1") {
    say(`${message} They are skipped.`);
    return "skipped";
  }
  fail(message);
}
