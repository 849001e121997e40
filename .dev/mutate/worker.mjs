// Runs tests with one mutant switched on, in a process of its own that may be ended when it hangs.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Script } from "node:vm";

/**
 * @typedef {import("./vitest.mjs").Test} Test
 * @typedef {{ file: string, tests: number[], ms: number }} Part tests of a file by number
 * @typedef {{ file: string, atLoad: number[], tests: { ids: number[], ms: number, fails: string | null }[], error: string | null }} Reach
 */

const [bundle = "", runs = ""] = process.argv.slice(2);
const require = createRequire(bundle);
const script = new Script(`(function (require, module, exports, __mutant) {${readFileSync(bundle, "utf8")}\n})`, {
  filename: bundle,
});

// A failure is all that is asked for, not the smallest example of it; and chance is the same every time.
/** @type {any} */
const fastCheck = require("fast-check");
fastCheck.configureGlobal({ endOnFailure: true, seed: 2026 });
/** @type {(property: unknown, parameters?: { numRuns?: number }) => unknown} */
const assert = (property, parameters = {}) =>
  fastCheck.assert(property, { ...parameters, numRuns: Math.min(parameters.numRuns ?? 100, Number(runs)) });
const shortened = { __esModule: true, ...fastCheck, assert, default: { ...fastCheck.default, assert } };
const requireFor = (/** @type {string} */ name) => (name === "fast-check" ? shortened : require(name));

/** A fresh copy of the project: nothing in it remembers what was computed before. */
function fresh(/** @type {(id: number) => boolean} */ isOn) {
  /** @type {{ exports: { collect: (file: string) => Test[] } }} */
  const module = { exports: /** @type {any} */ ({}) };
  script.runInThisContext()(requireFor, module, module.exports, isOn);
  return module.exports;
}

async function run(/** @type {Test} */ test) {
  for (const hook of test.before) await hook();
  try {
    await test.body();
  } finally {
    for (const hook of test.after) await hook();
  }
}

/** Which mutants each test of a file reaches by itself, and those that loading the file reaches. */
async function reachOf(/** @type {string} */ file) {
  /** @type {Set<number>} */
  let ids = new Set();
  const note = (/** @type {number} */ id) => {
    ids.add(id);
    return false;
  };
  const count = fresh(note).collect(file).length;
  const atLoad = [...ids];
  const loaded = ids;
  const tests = [];
  for (let i = 0; i < count; i++) {
    const test = fresh(note).collect(file)[i];
    ids = new Set();
    const begun = performance.now();
    /** @type {string | null} */
    let fails = null;
    await (test && run(test))?.catch((error) => {
      fails = `${test?.name}: ${error instanceof Error ? error.message : error}`;
    });
    tests.push({ ids: [...ids].filter((id) => !loaded.has(id)), ms: performance.now() - begun, fails });
  }
  return { file, atLoad, tests, error: null };
}

/** The first test that fails with a mutant, or null. */
async function killerOf(/** @type {number} */ mutant, /** @type {Part[]} */ parts) {
  const { collect } = fresh((id) => id === mutant);
  for (const { file, tests } of parts) {
    process.send?.({ at: file });
    try {
      const all = collect(file);
      for (const test of tests.flatMap((i) => all[i] ?? [])) {
        try {
          await run(test);
        } catch {
          return { file, test: test.name };
        }
      }
    } catch {
      return { file, test: "as it is loaded" };
    }
  }
  return null;
}

process.on("message", async (/** @type {{ reach?: string, mutant: number, parts: Part[] }} */ asked) => {
  if (asked.reach === undefined) return process.send?.({ killer: await killerOf(asked.mutant, asked.parts) });
  const failed = (/** @type {Error} */ error) => ({ file: asked.reach, atLoad: [], tests: [], error: error.message });
  process.send?.({ reach: await reachOf(asked.reach).catch(failed) });
});
