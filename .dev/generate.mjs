// npm run generate [-- --check]: writes the files that are made from the catalogue and the rules.
// Each .dev/generate/*.ts exports generate({ root, importTs }): Promise<{ path, text }[]>, paths from the project's folder.
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { importTs } from "./run-ts.mjs";
import { inProject, isMain, root, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

/** @typedef {{ path: string, text: string }} Made */

/** Writes every generated file that is not as it should be. */
export async function generate() {
  const stale = await staleFiles();
  for (const { path, text } of stale) {
    mkdirSync(dirname(inProject(path)), { recursive: true });
    // Written beside and moved, so that no reader ever sees half a file.
    const beside = inProject(`${path}.${process.pid}.new`);
    writeFileSync(beside, text);
    renameSync(beside, inProject(path));
  }
  say(stale.length === 0 ? "Generated files are up to date." : `Wrote ${names(stale)}.`);
}

/** 0 where every generated file is as its generator makes it, else 1, said with the files' names. */
export async function checkGenerated() {
  const stale = await staleFiles();
  if (stale.length === 0) return 0;
  console.error(`Not as their generators make them: ${names(stale)}. Run "npm run generate" and commit the result.`);
  return 1;
}

async function staleFiles() {
  const folder = inProject(".dev/generate");
  const generators = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith(".ts")) : [];
  /** @type {Made[]} */
  const made = [];
  for (const name of generators.sort()) {
    const { generate } = await importTs(inProject(".dev/generate", name));
    if (typeof generate !== "function") throw new Error(`.dev/generate/${name} exports no function "generate".`);
    made.push(...(await generate({ root, importTs })));
  }
  return made.filter(
    ({ path, text }) => !existsSync(inProject(path)) || readFileSync(inProject(path), "utf8") !== text,
  );
}

function names(/** @type {readonly Made[]} */ files) {
  return files.map(({ path }) => path).join(", ");
}

if (isMain(import.meta.url)) {
  await setUp();
  if (process.argv.includes("--check")) process.exitCode = await checkGenerated();
  else await generate();
}
