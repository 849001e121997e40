// The JSON language server that the benchmark runs beside ours. Installed in .cache/peer, with exact versions.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fail, inProject, runNpm, say, withProgress } from "./say.mjs";

const folder = inProject(".cache/peer");
// The server asks for ranges of versions; naming what does its work here makes them the same for everyone.
const packages = {
  "vscode-langservers-extracted": "4.10.0",
  "vscode-json-languageservice": "5.7.2",
  "vscode-languageserver": "10.1.2",
  "jsonc-parser": "3.3.1",
};

/** Installs the peer if it is not installed yet, or in other versions; ends the script if that fails. */
export async function setUpPeer() {
  const done = `${folder}/installed.json`;
  const wanted = `${JSON.stringify(packages)}\n`;
  if (existsSync(done) && readFileSync(done, "utf8") === wanted) return;
  say("Installing the JSON language server into .cache/peer (about 100 MB) …");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/package.json`, '{ "private": true }\n');
  const names = Object.entries(packages).map(([name, version]) => `${name}@${version}`);
  const quietly = ["--save-exact", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"];
  const status = await withProgress("npm install", runNpm(["install", ...quietly, ...names], folder));
  if (status !== 0) fail("The JSON language server could not be installed: see npm's message above.");
  writeFileSync(done, wanted);
}
