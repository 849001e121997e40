// Builds what the tests in the editor load, before they run.
import { rmSync } from "node:fs";
import { build } from "./build.mjs";
import { inProject } from "./say.mjs";

/** The files of the suite for the extension host: for the editor in a browser, and for one on Node. */
export const hostSuites = { web: inProject("dist/e2e/host-suite.js"), node: inProject("dist/e2e/host-suite.cjs") };

/** Builds the suite for the extension host, once for each kind of host. */
export async function buildHostSuites() {
  const esbuild = await import("esbuild");
  rmSync(inProject("dist/e2e"), { recursive: true, force: true });
  for (const outfile of Object.values(hostSuites))
    await esbuild.build({
      absWorkingDir: inProject(),
      entryPoints: ["tests/e2e/host-suite.ts"],
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
}
