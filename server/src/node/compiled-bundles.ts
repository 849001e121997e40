/**
 * Bundles of ours that the engine does not compile anew with every start. What it makes of a text when it compiles it,
 * and later each function that is called, is kept in a file; a start that finds such a file takes a third less time.
 * Without the file everything works the same.
 */
import { isAscii } from "node:buffer";
import { createHash } from "node:crypto";
import { lstatSync, readFileSync } from "node:fs";
import { mkdir, readdir, rename, rm, stat, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { cachedDataVersionTag } from "node:v8";
import { Script } from "node:vm";

export interface CompiledBundles {
  /** What a bundle exports; each is run once. `file` is relative to the folder of the bundles. */
  load(file: string): unknown;
  /** Keeps what was compiled by now of those bundles of which nothing was kept. Takes some 30 ms at once. Never rejects. */
  keep(): Promise<void>;
}

interface Loaded {
  readonly exports: unknown;
  readonly script: Script;
  /** The file that is not there yet; null where what is kept was taken. */
  readonly missing: string | null;
}

/** As Node wraps a module. */
const [BEFORE, AFTER] = ["(function (exports, require, module, __filename, __dirname) {", "\n})"];
const DIGEST_BYTES = 32;
/** What another version left behind is of no more use after that. */
const MOST_DAYS = 60;

/** `cache` is a folder that only this user can write to, if it is there; null where nothing is to be kept. */
export function compiledBundles(folder: string, cache: string | null): CompiledBundles {
  const loaded = new Map<string, Loaded>();
  const foreign = createRequire(join(folder, "-"));

  const load = (file: string): unknown => {
    const path = join(folder, file);
    let bundle = loaded.get(path);
    if (!bundle) {
      const bytes = readFileSync(path);
      // An engine keeps a text that is all ASCII in half of the memory, and it is read in a fifth of the time.
      const text = isAscii(bytes) ? bytes.toString("latin1") : bytes.toString();
      const kept = cache && join(cache, keptName(bytes));
      const cachedData = kept ? dataIn(kept, cache) : undefined;
      const script = new Script(BEFORE + text + AFTER, {
        filename: path,
        columnOffset: -BEFORE.length,
        ...(cachedData && { cachedData }),
      });
      const module = { exports: {} };
      const near = (name: string) => (name.startsWith("./") ? load(name) : foreign(name));
      script.runInThisContext()(module.exports, near, module, path, folder);
      const isTaken = cachedData !== undefined && script.cachedDataRejected === false;
      bundle = { exports: module.exports, script, missing: isTaken ? null : kept };
      loaded.set(path, bundle);
    }
    return bundle.exports;
  };
  return {
    load,
    async keep() {
      const missing = [...loaded.values()].filter((each) => each.missing !== null);
      if (!cache || missing.length === 0) return;
      try {
        await mkdir(cache, { recursive: true, mode: 0o700 });
        if (!isOurs(cache)) return;
        for (const { script, missing: file } of missing) await writeData(file!, script.createCachedData());
        await sweep(cache);
      } catch {
        // A disk that is full, or read-only: the next start compiles as this one did.
      }
    },
  };
}

/** Another one for another bundle, another engine, other flags of it, another processor. */
function keptName(bundle: Uint8Array): string {
  const engine = `${process.versions.v8}-${process.arch}-${cachedDataVersionTag().toString(16)}`;
  return `${sha256(bundle).toString("hex").slice(0, 32)}-${engine}.compiled`;
}

/**
 * What a file holds, if it is whole: the engine takes it as it is. Where others could have written the file it is not
 * taken, as it would be run.
 */
function dataIn(file: string, folder: string): Buffer | undefined {
  try {
    if (!isOurs(folder) || !isOurs(file)) return undefined;
    const bytes = readFileSync(file);
    const data = bytes.subarray(DIGEST_BYTES);
    return sha256(data).equals(bytes.subarray(0, DIGEST_BYTES)) ? data : undefined;
  } catch {
    return undefined;
  }
}

/** No link, and nobody else's. Windows keeps the folders of its users apart by itself. */
function isOurs(path: string): boolean {
  const found = lstatSync(path);
  if (found.isSymbolicLink()) return false;
  return process.getuid === undefined || (found.uid === process.getuid() && (found.mode & 0o022) === 0);
}

/** Whole or not at all: two servers may write the same file, and one of them may be ended. */
async function writeData(file: string, data: Buffer): Promise<void> {
  const draft = `${file}.${process.pid}`;
  try {
    await writeFile(draft, Buffer.concat([sha256(data), data]), { flag: "wx", mode: 0o600 });
    await rename(draft, file);
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
}

async function sweep(folder: string): Promise<void> {
  const before = Date.now() - MOST_DAYS * 24 * 3600 * 1000;
  for (const name of await readdir(folder)) {
    const path = join(folder, name);
    if (name.includes(".compiled") && (await stat(path)).mtimeMs < before) await rm(path, { force: true });
  }
}

function sha256(data: Uint8Array): Buffer {
  return createHash("sha256").update(data).digest();
}
