// npm run mutate -- PATH… [--sample N] [--seed N] [--runs N] [--tests PATH]… [--again]: changes the code in small ways and says which changes no test notices.
import { fork } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import { parseArgs } from "node:util";
import { instrument } from "./mutate/operators.mjs";
import { fail, inProject, root, say } from "./say.mjs";

/**
 * @typedef {import("./mutate/operators.mjs").Mutant} Mutant
 * @typedef {import("./mutate/worker.mjs").Part} Part
 * @typedef {import("./mutate/worker.mjs").Reach} Reach
 * @typedef {"killed" | "hangs" | "survived" | "not reached"} Outcome
 * @typedef {{ mutant: Mutant, outcome: Outcome, by: string | null }} Result
 */

/** Tests that start programs, draw, or read the language, the catalogue or the sources: they take long and see little. */
const LEFT_OUT = /^tests\/(bench|catalogue|cli|client|draw|e2e|fixtures|grammars|node-host|server|syntax|tidy)\//;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: "string" },
    seed: { type: "string", default: "9" },
    again: { type: "boolean", default: false },
    runs: { type: "string", default: "50" },
    tests: { type: "string", multiple: true, default: ["tests"] },
  },
});
if (positionals.length === 0)
  fail("Say what to change: npm run mutate -- PATH… [--sample N] [--seed N] [--runs N] [--tests PATH]… [--again]");

// What is kept from one run to the next goes by what was asked for.
const kept = inProject(".cache/mutate", positionals.join("+").replaceAll(/[^\w+.-]/g, "-"));
const [REPORT, BUNDLE] = [`${kept}.json`, `${kept}.cjs`];
const targets = positionals.flatMap(filesIn).filter((file) => /\.tsx?$/.test(file) && !/\.(generated|d)\./.test(file));
const testFiles = options.tests.flatMap(filesIn).filter((file) => /\.test\.ts$/.test(file) && !LEFT_OUT.test(file));
/** @type {Mutant[]} */
const mutants = [];
/** @type {Map<string, string>} */
const texts = new Map();
for (const file of targets) {
  const made = instrument(file, readFileSync(inProject(file), "utf8"), mutants.length);
  mutants.push(...made.mutants);
  texts.set(file, made.text);
}
/** @type {Result[]} of the last run, where it is asked for */
const before = options.again ? JSON.parse(readFileSync(REPORT, "utf8")) : [];
const chosen = sampled(options.again ? mutants.filter(wasMissed()) : mutants, Number(options.sample ?? mutants.length));
say(`${mutants.length} mutants in ${targets.length} files, of which ${chosen.length} are tried.`);
await bundle();
const worker = startWorker();
/** @type {Reach[]} */
const reaches = [];
for (const file of testFiles) {
  const { reach } = await worker.ask({ reach: file }, 600_000);
  if (reach.error) say(`${file} is left out, because it fails here without any mutant: ${reach.error.slice(0, 300)}`);
  else reaches.push(reach);
  for (const { fails } of reach.tests)
    if (fails) say(`In ${file} a test is left out, because it fails here without any mutant: ${fails.slice(0, 200)}`);
}
say(`${reaches.reduce((sum, { tests }) => sum + tests.length, 0)} tests in ${reaches.length} files.`);
/** @type {Map<string, number>} how many mutants of one file the tests of another noticed */
const killed = new Map();
/** @type {Result[]} */
const results = [];
for (const mutant of chosen) {
  results.push(await outcomeOf(mutant));
  if (results.length % 50 === 0) say(`${results.length} of ${chosen.length} tried.`);
}
worker.end();
const tried = new Set(chosen.map(keyOf));
report([...before.filter(({ mutant }) => !tried.has(keyOf(mutant))), ...results]);

/** @returns {string[]} files at or below a path, as paths in the project */
function filesIn(/** @type {string} */ path) {
  const at = relative(root, resolve(path)).replaceAll("\\", "/");
  if (!statSync(inProject(at), { throwIfNoEntry: false })) fail(`There is no ${path}.`);
  if (statSync(inProject(at)).isFile()) return [at];
  return readdirSync(inProject(at))
    .sort()
    .flatMap((name) => filesIn(inProject(at, name)));
}

/** So many of a list, the same ones for the same seed, in the list's order. */
function sampled(/** @type {Mutant[]} */ list, /** @type {number} */ count) {
  let state = Number(options.seed);
  // Park and Miller's generator ("Random Number Generators: Good Ones Are Hard to Find", CACM 31, 1988; from memory).
  const next = () => (state = (state * 48271) % 2147483647);
  for (let i = 0; i < 10; i++) next();
  const drawn = list.map((mutant) => ({ mutant, at: next() })).sort((a, b) => a.at - b.at);
  return drawn
    .slice(0, count)
    .map(({ mutant }) => mutant)
    .sort((a, b) => a.id - b.id);
}

/** What marks a mutant from one run to the next, as long as its file stays. */
function keyOf(/** @type {Mutant} */ { file, line, from, to }) {
  return `${file}:${line} ${from} -> ${to}`;
}

/** Whether the last run found no test that notices a mutant. */
function wasMissed() {
  const missed = new Set(
    before
      .filter(({ outcome }) => outcome === "survived" || outcome === "not reached")
      .map(({ mutant }) => keyOf(mutant)),
  );
  return (/** @type {Mutant} */ mutant) => missed.has(keyOf(mutant));
}

/** All tests in one file, each loaded when it is asked for, with the changed texts in place of the targets. */
async function bundle() {
  const { build } = await import("esbuild");
  const loads = testFiles.map((file) => `${JSON.stringify(file)}: () => require("./${file}")`);
  await build({
    absWorkingDir: root,
    stdin: {
      contents: `const { collect } = require("vitest");
        const loads = {${loads.join(",\n")}};
        module.exports.collect = (file) => collect(file, loads[file]);`,
      resolveDir: root,
    },
    outfile: BUNDLE,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    packages: "external",
    alias: { vitest: inProject(".dev/mutate/vitest.mjs") },
    logLevel: "error",
    plugins: [
      {
        name: "mutants",
        setup({ onLoad }) {
          onLoad({ filter: /\.m?[jt]sx?$/ }, ({ path }) => {
            const file = relative(root, path).replaceAll("\\", "/");
            const text = texts.get(file) ?? readFileSync(path, "utf8");
            const meta = JSON.stringify({ url: `file://${path}`, dirname: dirname(path) });
            return {
              contents: text.replaceAll("import.meta", `(${meta})`),
              loader: path.endsWith("x") ? "tsx" : path.endsWith("mjs") ? "js" : "ts",
            };
          });
        },
      },
    ],
  });
}

/** A process that answers questions; one that hangs or breaks down is replaced by another. */
function startWorker() {
  const start = () =>
    fork(inProject(".dev/mutate/worker.mjs"), [BUNDLE, options.runs], {
      cwd: root,
      stdio: ["ignore", "ignore", "inherit", "ipc"],
    });
  let child = start();
  /** @returns {Promise<any>} the answer; null where none came within `ms` after the last sign of life */
  const ask = (/** @type {unknown} */ question, /** @type {number | ((file: string) => number)} */ ms) =>
    new Promise((done) => {
      const finish = (/** @type {unknown} */ answer) => {
        clearTimeout(timer);
        child.removeAllListeners();
        if (answer === null) {
          child.kill("SIGKILL");
          child = start();
        }
        done(answer);
      };
      let timer = setTimeout(finish, typeof ms === "number" ? ms : 20_000, null);
      child.on("exit", () => finish(null));
      child.on("message", (/** @type {any} */ message) => {
        if (!message.at) return finish(message);
        clearTimeout(timer);
        timer = setTimeout(finish, typeof ms === "number" ? ms : ms(message.at), null);
      });
      child.send(/** @type {any} */ (question));
    });
  return { ask, end: () => child.disconnect() };
}

/** @returns {Promise<Result>} */
async function outcomeOf(/** @type {Mutant} */ mutant) {
  /** @type {Part[]} */
  const parts = reaches.flatMap(({ file, atLoad, tests }) => {
    const all = atLoad.includes(mutant.id);
    const reaching = tests.flatMap(({ ids, fails }, i) =>
      fails === null && (all || ids.includes(mutant.id)) ? [i] : [],
    );
    const ms = reaching.reduce((sum, i) => sum + (tests[i]?.ms ?? 0), 0);
    return reaching.length > 0 ? [{ file, tests: reaching, ms }] : [];
  });
  if (parts.length === 0) return { mutant, outcome: "not reached", by: null };
  // What noticed another mutant of this file is likely to notice this one.
  const kills = (/** @type {Part} */ { file }) => killed.get(`${mutant.file} ${file}`) ?? 0;
  parts.sort((a, b) => a.ms / (1 + 20 * kills(a)) - b.ms / (1 + 20 * kills(b)));
  const allowed = (/** @type {string} */ file) => 3000 + 4 * (parts.find((part) => part.file === file)?.ms ?? 0);
  const answer = await worker.ask({ mutant: mutant.id, parts }, allowed);
  if (answer === null) return { mutant, outcome: "hangs", by: null };
  if (answer.killer === null) return { mutant, outcome: "survived", by: null };
  const pair = `${mutant.file} ${answer.killer.file}`;
  killed.set(pair, (killed.get(pair) ?? 0) + 1);
  return { mutant, outcome: "killed", by: `${answer.killer.file}: ${answer.killer.test}` };
}

function report(/** @type {Result[]} */ results) {
  mkdirSync(inProject(".cache/mutate"), { recursive: true });
  writeFileSync(REPORT, JSON.stringify(results, null, 1));
  const short = (/** @type {string} */ text) => text.replaceAll(/\s+/g, " ").slice(0, 100);
  for (const { mutant, outcome } of results) {
    if (outcome !== "survived" && outcome !== "not reached") continue;
    console.log(`${mutant.file}:${mutant.line} ${outcome}\n    ${short(mutant.from)}\n    ${short(mutant.to)}`);
  }
  console.log("\nkilled  hangs  survived  not reached   score");
  for (const path of positionals) {
    const below = new Set(filesIn(path));
    const own = results.filter(({ mutant }) => below.has(mutant.file));
    const count = (/** @type {Outcome} */ which) => own.filter(({ outcome }) => outcome === which).length;
    const score = ((count("killed") + count("hangs")) / own.length) * 100;
    const figures = [count("killed"), count("hangs"), count("survived"), count("not reached")];
    const widths = [6, 7, 10, 13];
    console.log(
      `${figures.map((each, i) => String(each).padStart(widths[i] ?? 0)).join("")} ${score.toFixed(1).padStart(6)} %  ${path}`,
    );
  }
}
