// Shared by the scripts in this folder: the project's folder, messages with the time, and child processes.
import { spawn } from "node:child_process";
import { realpathSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's own folder, absolute. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** An absolute path inside the project, from its parts. */
export const inProject = (/** @type {string[]} */ ...parts) => join(root, ...parts);

const started = performance.now();

/** Prints one line with the seconds since the script started. */
export function say(/** @type {string} */ text) {
  const seconds = ((performance.now() - started) / 1000).toFixed(1).padStart(5);
  console.log(`[${seconds} s] ${text}`);
}

/**
 * Ends the script with a message that says what went wrong and what to do.
 * @param {string} text
 * @returns {never}
 */
export function fail(text) {
  console.error(text);
  process.exit(1);
}

/**
 * Runs a program in the project's folder with its output shown, and returns its exit status; 1 if
 * it could not be started or was ended by a signal.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env] variables that are added to this process's own
 * @returns {Promise<number>}
 */
export function runProgram(program, args, env = {}) {
  return statusOf(program, spawn(program, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } }));
}

/**
 * @param {string} program its name in messages
 * @param {import("node:child_process").ChildProcess} child
 * @returns {Promise<number>}
 */
function statusOf(program, child) {
  return new Promise((resolve) => {
    child.on("error", (error) => {
      console.error(`${program} could not be started: ${error.message}`);
      resolve(1);
    });
    child.on("exit", (status) => resolve(status ?? 1));
  });
}

/** Runs a script of a package in node_modules with the current Node. */
export function runTool(/** @type {string} */ script, /** @type {readonly string[]} */ args, env = {}) {
  return runProgram(process.execPath, [inProject("node_modules", script), ...args], env);
}

/**
 * Runs npm, the one that runs this script, else the one on PATH, and returns its exit status as `runProgram` does.
 * @param {readonly string[]} args
 * @param {string} [folder]
 * @returns {Promise<number>}
 */
export function runNpm(args, folder = root) {
  const npm = process.env.npm_execpath;
  const options = /** @type {const} */ ({ cwd: folder, stdio: "inherit" });
  const child = npm?.endsWith("js")
    ? spawn(process.execPath, [npm, ...args], options)
    : spawn("npm", args, { ...options, shell: process.platform === "win32" });
  return statusOf("npm", child);
}

/**
 * Awaits work without output, and prints every ten seconds that it still runs.
 * @template T
 * @param {string} what
 * @param {Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withProgress(what, work) {
  const startedAt = performance.now();
  const seconds = () => ((performance.now() - startedAt) / 1000).toFixed(0);
  const timer = setInterval(() => say(`${what}: still running after ${seconds()} s`), 10_000);
  try {
    return await work;
  } finally {
    clearInterval(timer);
  }
}

/** True where this module is the script that Node was started with. */
export function isMain(/** @type {string} */ moduleUrl) {
  return process.argv[1] !== undefined && fileURLToPath(moduleUrl) === realpathSync(process.argv[1]);
}
