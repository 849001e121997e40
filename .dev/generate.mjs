// npm run generate [-- --check]: writes the files that are generated from the catalogue and the rules.
// Each .dev/generate/*.ts named below exports generate(root): { path, text }[], paths relative to the project's folder.
import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { importTs } from "./run-ts.mjs";
import { inProject, isMain, root, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

/** @typedef {{ path: string, text: string }} GeneratedFile */
/** @typedef {{ generate: (root: string) => readonly GeneratedFile[] }} Generator */

/** The order matters: what comes after the registry is made from it, and the README's tables also from the manifest. */
const generators = ["grammar", "own-words", "registry", "settings", "readme", "walkthrough"];

/** Writes all generated files that are out of date. */
export async function generate() {
  /** @type {GeneratedFile[]} */
  const written = [];
  for (const name of generators) {
    for (const file of await staleFiles(name)) {
      // Written under another name and then renamed, so that no reader sees half a file.
      const beside = inProject(`${file.path}.${process.pid}.new`);
      writeFileSync(beside, file.text);
      renameSync(beside, inProject(file.path));
      written.push(file);
    }
  }
  say(written.length === 0 ? "Generated files are up to date." : `Wrote ${names(written)}.`);
}

/** Returns 0 if every generated file is up to date, else 1, and prints the names of the others. */
export async function checkGenerated() {
  const stale = [];
  for (const name of generators) stale.push(...(await staleFiles(name)));
  if (stale.length === 0) return 0;
  console.error(`Not as their generators make them: ${names(stale)}. Run "npm run generate" and commit the result.`);
  return 1;
}

async function staleFiles(/** @type {string} */ name) {
  const { generate } = /** @type {Generator} */ (
    /** @type {unknown} */ (await importTs(inProject(`.dev/generate/${name}.ts`)))
  );
  return generate(root).filter(
    ({ path, text }) => !existsSync(inProject(path)) || readFileSync(inProject(path), "utf8") !== text,
  );
}

function names(/** @type {readonly GeneratedFile[]} */ files) {
  return files.map(({ path }) => path).join(", ");
}

if (isMain(import.meta.url)) {
  await setUp();
  if (process.argv.includes("--check")) process.exitCode = await checkGenerated();
  else await generate();
}
