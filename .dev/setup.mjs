// Makes node_modules match package-lock.json. Everything else that a clone needs is built from the sources.
import { readFileSync } from "node:fs";
import { fail, inProject, isMain, runNpm, say, withProgress } from "./say.mjs";

const oldestNode = 20;

/** Installs what package-lock.json lists, unless node_modules has exactly that already. */
export async function setUp() {
  const major = Number(process.versions.node.split(".")[0]);
  if (major < oldestNode) fail(`Fettle is built with Node ${oldestNode} or later; this is ${process.version}.`);
  const why = whyStale();
  if (!why) return;
  say(`Installing packages, because ${why} (about 700 MB, most of it the editor that the tests drive).`);
  const status = await withProgress("npm ci", runNpm(["ci", "--no-audit", "--no-fund"]));
  if (status !== 0) fail("npm ci failed: see its message above. Correct that and run this again.");
  const still = whyStale();
  if (still) fail(`npm ci ended well, and yet ${still}. Delete node_modules and run this again.`);
  say("Packages are installed.");
}

/** Why node_modules is out of date, or null if it is not, by the list that npm keeps of what it installed. */
function whyStale() {
  const locked = packagesOf("package-lock.json");
  if (!locked) fail("package-lock.json is missing or broken: restore it from git.");
  const installed = packagesOf("node_modules/.package-lock.json");
  if (!installed) return "there is no complete node_modules here";
  for (const [path, entry] of Object.entries(locked)) {
    if (path === "") continue;
    const here = installed[path];
    // Packages for other systems are listed, but not installed.
    if (!here && (entry.optional || entry.devOptional || entry.peer)) continue;
    if (!here) return `${path} is missing`;
    if (here.version !== entry.version) return `${path} is ${here.version} instead of ${entry.version}`;
  }
  return null;
}

/**
 * @typedef {{ version?: string, optional?: boolean, devOptional?: boolean, peer?: boolean }} Locked
 * @returns {Record<string, Locked> | null}
 */
function packagesOf(/** @type {string} */ lockFile) {
  try {
    return JSON.parse(readFileSync(inProject(lockFile), "utf8")).packages ?? null;
  } catch {
    return null;
  }
}

if (isMain(import.meta.url)) {
  await setUp();
  say("Set up.");
}
