// node .dev/run-ts.mjs FILE [ARGUMENTS]: bundles a TypeScript file into .cache and runs it.
import { relative, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { fail, inProject, isMain, root } from "./say.mjs";
import { setUp } from "./setup.mjs";

/**
 * Bundles a TypeScript module and imports it; packages are not bundled but loaded from node_modules.
 * @param {string} file
 * @returns {Promise<Record<string, unknown>>} what it exports
 */
export async function importTs(file) {
  const { build } = await import("esbuild");
  const entry = relative(root, resolve(file));
  const outfile = inProject(".cache/run", entry.replaceAll(/[\\/]/g, "+").replace(/\.tsx?$/, ".mjs"));
  await build({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    sourcemap: "inline",
    logLevel: "warning",
  });
  return import(pathToFileURL(outfile).href);
}

if (isMain(import.meta.url)) {
  const file = process.argv[2];
  if (!file) fail("Name the file to run: node .dev/run-ts.mjs FILE");
  else {
    await setUp();
    process.argv.splice(1, 1);
    await importTs(file);
  }
}
