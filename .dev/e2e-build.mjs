// Builds what the tests in the editor load, before they run.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "./build.mjs";
import { inProject } from "./say.mjs";

/** The files of the suite for the extension host: for the editor in a browser, and for one on Node. */
export const hostSuites = { web: inProject("dist/e2e/host-suite.js"), node: inProject("dist/e2e/host-suite.cjs") };

/** What the suites have in common while they run: a workspace for the editor, a profile for its browser. */
export const e2eFolder = inProject(".cache/e2e");

/** The folders of the tests' own extensions: one sets the stage, one stands in for the editor's git extension. */
export const testExtensions = { stage: inProject("dist/e2e/stage"), git: inProject("dist/e2e/git") };

/** Builds the suite for the extension host, once for each kind of host. */
export async function buildHostSuites() {
  rmSync(inProject("dist/e2e"), { recursive: true, force: true });
  for (const outfile of Object.values(hostSuites)) await buildForHost("tests/e2e/host-suite.ts", outfile);
}

/** Builds the tests' own extensions; each of them starts with the editor. */
async function buildTestExtensions() {
  await buildTestExtension("tests/e2e/stage.ts", testExtensions.stage, { name: "stage", publisher: "tests" });
  // By this id the editor's own git extension is asked for, which does not run in a browser.
  await buildTestExtension("tests/e2e/git.ts", testExtensions.git, { name: "git", publisher: "vscode" });
}

async function buildTestExtension(
  /** @type {string} */ entry,
  /** @type {string} */ folder,
  /** @type {{ name: string, publisher: string }} */ id,
) {
  await buildForHost(entry, join(folder, "main.js"));
  const manifest = {
    ...id,
    version: "1.0.0",
    engines: { vscode: "^1.91.0" },
    browser: "main.js",
    activationEvents: ["*"],
  };
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), JSON.stringify(manifest));
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
  await buildTestExtensions();
  // By then the process of the tests has ended, and its browser is about to.
  process.once("exit", () => rmSync(e2eFolder, { recursive: true, force: true, maxRetries: 12, retryDelay: 100 }));
}
