// Builds what the tests in the editor load, before they run.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "./build.mjs";
import { inProject } from "./say.mjs";

/** The files of the suite for the extension host: for the editor in a browser, and for one on Node. */
export const hostSuites = { web: inProject("dist/e2e/host-suite.js"), node: inProject("dist/e2e/host-suite.cjs") };

/** What the suites have in common while they run: a workspace for the editor, a profile for its browser. */
export const e2eFolder = inProject(".cache/e2e");

/** The folder of the tests' own extension. */
export const stageExtension = inProject("dist/e2e/stage");

/** Builds the suite for the extension host, once for each kind of host. */
export async function buildHostSuites() {
  rmSync(inProject("dist/e2e"), { recursive: true, force: true });
  for (const outfile of Object.values(hostSuites)) await buildForHost("tests/e2e/host-suite.ts", outfile);
}

async function buildStage() {
  await buildForHost("tests/e2e/stage.ts", join(stageExtension, "main.js"));
  const manifest = {
    name: "stage",
    publisher: "tests",
    version: "1.0.0",
    engines: { vscode: "^1.91.0" },
    browser: "main.js",
    activationEvents: ["*"],
  };
  mkdirSync(stageExtension, { recursive: true });
  writeFileSync(join(stageExtension, "package.json"), JSON.stringify(manifest));
}

async function buildForHost(/** @type {string} */ entry, /** @type {string} */ outfile) {
  const esbuild = await import("esbuild");
  await esbuild.build({
    absWorkingDir: inProject(),
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: "cjs",
    platform: "browser",
    target: "es2022",
    external: ["vscode"],
    sourcemap: "inline",
    logLevel: "warning",
  });
}

/** Vitest calls this once before the e2e project. */
export async function setup() {
  if (process.env.FETTLE_BUILT !== "1") await build("plain");
  await buildHostSuites();
  await buildStage();
  // By then the process of the tests has ended, and its browser is about to.
  process.once("exit", () => rmSync(e2eFolder, { recursive: true, force: true, maxRetries: 12, retryDelay: 100 }));
}
