/** A disk that breaks at one of the program's calls, inside this process: the call fails, or nothing happens any more. */
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { constants } from "node:os";

const WRITING = [
  "openSync",
  "writeFileSync",
  "closeSync",
  "fsyncSync",
  "renameSync",
  "linkSync",
  "chmodSync",
  "chownSync",
  "mkdirSync",
  "rmSync",
  "unlinkSync",
] as const;

export interface Breaking {
  /** The number of the call that breaks, from 1. */
  readonly at: number;
  /** The code of the error with which it fails; `dead`: it and all that follow fail, as nothing runs after the end of a program. */
  readonly how: "dead" | keyof typeof constants.errno;
  /** A disk without hard links. */
  readonly links?: "none";
}

// biome-ignore lint/suspicious/noExplicitAny: functions of any signature are passed through.
type AnyFunction = (...args: any[]) => any;

const functions = fs as unknown as Record<string, AnyFunction>;
const real = Object.fromEntries(WRITING.map((name) => [name, functions[name]!]));

function failure(code: keyof typeof constants.errno, syscall: string, path: unknown): Error {
  const at = typeof path === "string" ? ` '${path}'` : "";
  return Object.assign(new Error(`${code}: made to fail, ${syscall}${at}`), {
    code,
    syscall,
    path,
    errno: -constants.errno[code],
  });
}

const isWriting = (flags: unknown) => typeof flags === "string" && /[wa+]/.test(flags);

/** Runs something on such a disk; gives what it gave, and whether the call that breaks was reached. */
export async function onBrokenDisk<T>(
  { at, how, links }: Breaking,
  run: () => Promise<T>,
): Promise<{ readonly result: T; readonly isBroken: boolean }> {
  let calls = 0;
  /** What is open to be written. */
  const opened = new Set<unknown>();
  for (const name of WRITING) {
    const was = real[name]!;
    Object.assign(fs, {
      [name]: (...args: unknown[]) => {
        const [target, content] = args;
        if (name === "linkSync" && links === "none") throw failure("EPERM", name, args[1]);
        // Files are opened and closed to be read as well.
        const isToRead = name === "openSync" ? !isWriting(args[1]) : name === "closeSync" && !opened.delete(target);
        if (isToRead) return was(...args);
        const isDead = how === "dead" && calls >= at;
        if (++calls !== at && !isDead) {
          const result = was(...args);
          if (name === "openSync") opened.add(result);
          return result;
        }
        // Of what is to be written half is written by then.
        if (name === "writeFileSync" && !isDead) {
          const bytes = Buffer.from(content as string | Uint8Array);
          if (typeof target === "number") fs.writeSync(target, bytes.subarray(0, bytes.length / 2));
          else was(target, bytes.subarray(0, bytes.length / 2));
        }
        // What is open the system closes.
        if (name === "closeSync") was(...args);
        throw failure(how === "dead" ? "EIO" : how, name, target);
      },
    });
  }
  syncBuiltinESMExports();
  try {
    return { result: await run(), isBroken: calls >= at };
  } finally {
    Object.assign(fs, real);
    syncBuiltinESMExports();
  }
}
