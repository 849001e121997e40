// npm run test:desktop: runs the suite for the extension host in a desktop editor, which is downloaded once.
import { cpSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { build } from "./build.mjs";
import { buildHostSuites, hostSuites } from "./e2e-build.mjs";
import { fail, inProject, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

await setUp();
await build("plain");
await buildHostSuites();
const { downloadAndUnzipVSCode, runTests } = await import("@vscode/test-electron");
mkdirSync(inProject(".cache"), { recursive: true });
const folder = mkdtempSync(inProject(".cache/workspace-"));
cpSync(inProject("examples"), folder, { recursive: true });
try {
  const vscodeExecutablePath = await program();
  say("Running the suite in it …");
  await runTests({
    vscodeExecutablePath,
    extensionDevelopmentPath: inProject(),
    extensionTestsPath: hostSuites.node,
    launchArgs: [folder, "--disable-extensions", "--disable-workspace-trust", "--skip-welcome"],
  });
  say("The desktop suite passed.");
} catch (error) {
  console.error(`The desktop suite failed: ${error instanceof Error ? error.message : error}`);
  process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function program() {
  say("Downloading a desktop editor, unless .cache/desktop has one already …");
  try {
    return await downloadAndUnzipVSCode({ cachePath: inProject(".cache/desktop"), version: "stable" });
  } catch (error) {
    rmSync(folder, { recursive: true, force: true });
    fail(
      `No desktop editor could be downloaded (${error instanceof Error ? error.message : error}). ` +
        "Run this where there is internet; the same suite runs in the browser with: npm run test:e2e",
    );
  }
}
