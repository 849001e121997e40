// Loaded before the program (`node --import`): ends it, or fails it, at one of its own calls to the file system.
// FETTLE_CALLS says which calls count (“writing” or “all”), FETTLE_AT the number of the one (or “end”: when all is done
// and it would end by itself), and FETTLE_HOW what happens there:
//   kill  SIGKILL before the call; of what is to be written half is written by then
//   CODE  the call fails with that error, such as ENOSPC; of what is to be written half is written
// FETTLE_LINKS=none: a disk without hard links.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { constants } from "node:os";
import { pathToFileURL } from "node:url";

const { FETTLE_CALLS, FETTLE_AT, FETTLE_HOW = "kill", FETTLE_LINKS } = process.env;

const WRITING = [
  "openSync",
  "writeFileSync",
  "writeSync",
  "closeSync",
  "fsyncSync",
  "renameSync",
  "linkSync",
  "chmodSync",
  "chownSync",
  "mkdirSync",
  "rmSync",
  "rmdirSync",
  "unlinkSync",
];
const READING = [
  "accessSync",
  "existsSync",
  "lstatSync",
  "readFileSync",
  "readdirSync",
  "readlinkSync",
  "realpathSync",
  "statSync",
];

/** The folder of the program: calls of Node itself, such as to load a module, do not count. */
const own = pathToFileURL(fs.realpathSync(new URL(".", pathToFileURL(process.argv[1] ?? "")))).href;
const real = { ...fs };
let calls = 0;

function die() {
  process.kill(process.pid, "SIGKILL");
  // The signal comes at once, and if not nothing more is to happen.
  for (;;);
}

// Only the program itself, and not what it may start.
if (FETTLE_AT === "end") process.once("exit", die);

/** The system's own error for a call. */
function failure(/** @type {string} */ code, /** @type {string} */ name, /** @type {unknown} */ path) {
  const errno = -(/** @type {Record<string, number>} */ (constants.errno[code] ?? 1));
  const syscall = name.replace(/Sync$/, "");
  const at = typeof path === "string" ? ` '${path}'` : "";
  return Object.assign(new Error(`${code}: made to fail, ${syscall}${at}`), { code, errno, syscall, path });
}

function half(
  /** @type {unknown} */ target,
  /** @type {string | Uint8Array} */ content,
  /** @type {unknown} */ options,
) {
  const encoding = typeof options === "string" ? options : "utf8";
  const bytes = typeof content === "string" ? Buffer.from(content, /** @type {BufferEncoding} */ (encoding)) : content;
  const part = bytes.subarray(0, Math.floor(bytes.length / 2));
  if (typeof target === "number") real.writeSync(target, part);
  else real.writeFileSync(/** @type {string} */ (target), part);
}

/** What is open to be written. */
const opened = new Set();
const isWriting = (/** @type {unknown} */ flags) => typeof flags === "string" && /[wa+]/.test(flags);

function watch(/** @type {string} */ name) {
  const was = /** @type {Record<string, Function>} */ (/** @type {unknown} */ (real))[name];
  const watched = (/** @type {unknown[]} */ ...args) => {
    if (name === "linkSync" && FETTLE_LINKS === "none") throw failure("EPERM", name, args[1]);
    // Files are opened and closed to be read as well.
    const isToRead = name === "openSync" ? !isWriting(args[1]) : name === "closeSync" && !opened.delete(args[0]);
    if (isToRead) return was(...args);
    // Where it is the program that calls, its file is the first but this one that is no part of Node.
    const caller = (new Error().stack ?? "")
      .split("\n")
      .slice(2)
      .find((line) => line.includes("file://"));
    if (caller?.includes(own) && ++calls === Number(FETTLE_AT)) {
      const [target, content, options] = args;
      if (name === "writeFileSync") half(target, /** @type {string} */ (content), options);
      if (FETTLE_HOW === "kill") die();
      if (name === "existsSync") return false;
      throw failure(FETTLE_HOW, name, target);
    }
    const result = was(...args);
    if (name === "openSync") opened.add(result);
    return result;
  };
  Object.assign(fs, { [name]: watched });
}

for (const name of FETTLE_CALLS === "all" ? [...WRITING, ...READING] : WRITING) watch(name);
syncBuiltinESMExports();
