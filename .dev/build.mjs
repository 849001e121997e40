// npm run build [-- --minify | --watch]: bundles everything that runs into dist/.
import { chmodSync, mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { bundles } from "./bundles.mjs";
import { writeNotices } from "./notices.mjs";
import { fail, inProject, isMain, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

/**
 * Builds every bundle; ends the script if one fails, after esbuild's own messages.
 * @param {"plain" | "minify"} how plain: with source maps; minify: as shipped
 */
export async function build(how) {
  const esbuild = await import("esbuild");
  const startedAt = performance.now();
  prepareDist();
  /** @type {import("esbuild").Metafile["outputs"]} */
  const outputs = {};
  const inputs = new Set();
  try {
    const results = await Promise.all(bundles.map((options) => esbuild.build({ ...options, ...outputOptions(how) })));
    for (const { metafile } of results) {
      Object.assign(outputs, metafile?.outputs);
      for (const file of Object.keys(metafile?.inputs ?? {})) inputs.add(file);
    }
  } catch {
    fail("The build failed: see the messages above.");
  }
  removeOldChunks(Object.keys(outputs));
  writeNotices(inputs);
  chmodSync(inProject("dist/fettle.js"), 0o755);
  say(`Built in ${(performance.now() - startedAt).toFixed(0)} ms: ${sizes(outputs)}.`);
}

/** Deletes old chunks, whose names change with their content; after the build, so that a running program keeps its own. */
function removeOldChunks(/** @type {readonly string[]} */ made) {
  const folder = inProject("dist/cli");
  for (const name of readdirSync(folder)) {
    if (!made.includes(`dist/cli/${name}`)) rmSync(join(folder, name), { recursive: true });
  }
}

function prepareDist() {
  mkdirSync(inProject("dist/server"), { recursive: true });
  // dist/fettle.js is an ES module; declared in the manifest at the root, that would apply to the extension too.
  writeFileSync(inProject("dist/package.json"), '{ "type": "module" }\n');
  writeFileSync(inProject("dist/server/package.json"), '{ "type": "commonjs" }\n');
}

/** @returns {import("esbuild").BuildOptions} */
function outputOptions(/** @type {"plain" | "minify"} */ how) {
  return how === "minify" ? { minify: true, metafile: true } : { sourcemap: "linked", metafile: true };
}

function sizes(/** @type {import("esbuild").Metafile["outputs"]} */ outputs) {
  const files = Object.entries(outputs).filter(([file]) => !file.endsWith(".map"));
  return files.map(([file, { bytes }]) => `${file} ${(bytes / 1024).toFixed(0)} kB`).join(", ");
}

async function watch() {
  const esbuild = await import("esbuild");
  prepareDist();
  const contexts = bundles.map((options) =>
    esbuild.context({ ...options, ...outputOptions("plain"), logLevel: "info" }),
  );
  for (const context of await Promise.all(contexts)) await context.watch();
  say("Watching; Ctrl+C ends it.");
}

if (isMain(import.meta.url)) {
  await setUp();
  if (process.argv.includes("--watch")) await watch();
  else await build(process.argv.includes("--minify") ? "minify" : "plain");
}
