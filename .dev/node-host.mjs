// An editor with an extension host on Node, as on a desktop, shown in a browser. Installed in .cache/node-host.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fail, inProject, runNpm, say, withProgress } from "./say.mjs";

const folder = inProject(".cache/node-host");
const editorFolder = join(folder, "node_modules/code-server/lib/vscode");
// This version of the editor needs Node 24, which is therefore installed beside it.
const packages = { "code-server": "4.139.1", [`node-${process.platform}-${process.arch}`]: "24.9.0" };
const program = join(folder, "node_modules", `node-${process.platform}-${process.arch}`, "bin/node");
const serverMain = join(editorFolder, "out/server-main.js");
const dataFolder = join(folder, "data");

/** Installs the editor if it is not installed yet; ends the script if that fails. */
export async function setUpNodeHost() {
  const done = join(folder, "installed.json");
  if (existsSync(done)) return;
  say("Installing the editor for Node into .cache/node-host (about 800 MB, a minute or two) …");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), '{ "private": true }\n');
  const names = Object.entries(packages).map(([name, version]) => `${name}@${version}`);
  const quietly = ["--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"];
  await installed(["install", ...quietly, ...names], folder);
  await installed(["install", "--omit=dev", ...quietly], editorFolder);
  await installed(["install", "--omit=dev", ...quietly], join(editorFolder, "extensions"));
  writeFileSync(done, `${JSON.stringify(packages)}\n`);
}

async function installed(/** @type {string[]} */ args, /** @type {string} */ where) {
  const status = await withProgress("npm install", runNpm(args, where));
  if (status !== 0) fail("The editor for Node could not be installed: see npm's message above.");
}

/** Installs a packaged extension into an editor without any other data. */
export function installExtension(/** @type {string} */ vsix) {
  rmSync(dataFolder, { recursive: true, force: true });
  for (const owner of ["Machine", "User"]) {
    mkdirSync(join(dataFolder, "data", owner), { recursive: true });
    writeFileSync(join(dataFolder, "data", owner, "settings.json"), JSON.stringify(settings));
  }
  say("Installing the package in it …");
  // Its output is shown only after a failure: it always warns of parts that are not needed here.
  const args = [serverMain, "--install-extension", vsix, "--server-data-dir", dataFolder];
  const { status, stdout, stderr } = spawnSync(program, args, { encoding: "utf8" });
  if (status !== 0) fail(`The editor did not take ${vsix}. It said:\n${stdout}${stderr}`);
}

const settings = {
  "security.workspace.trust.enabled": false,
  "chat.disableAIFeatures": true,
  "workbench.startupEditor": "none",
};

/**
 * Starts the editor with a folder open.
 * @param {string} workspace
 * @param {number} port
 * @returns {Promise<{ url: string, close: () => void }>}
 */
export async function startNodeHost(workspace, port) {
  const args = ["--host", "localhost", "--port", String(port), "--without-connection-token"];
  const quiet = ["--accept-server-license-terms", "--telemetry-level", "off", "--server-data-dir", dataFolder];
  const child = spawn(program, [serverMain, ...args, ...quiet], { stdio: ["ignore", "pipe", "pipe"] });
  let output = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (text) => (output += text));
  const url = `http://localhost:${port}/?folder=${encodeURIComponent(workspace)}`;
  const close = () => void child.kill();
  const end = performance.now() + 60_000;
  while (performance.now() < end && child.exitCode === null) {
    if (await answers(`http://localhost:${port}/`)) return { url, close };
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  close();
  return fail(`The editor for Node did not start. It said:\n${output}`);
}

async function answers(/** @type {string} */ url) {
  try {
    return (await fetch(url)).ok;
  } catch {
    return false;
  }
}
