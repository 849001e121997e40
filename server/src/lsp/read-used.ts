/** Reads what scripts use, and what those use in turn. */
import { boardFilesIn } from "../../../shared/model/board-files.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Script } from "../../../shared/model/script.ts";
import { resolvePath } from "../../../shared/model/uses.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { pause } from "./timers.ts";

/** The texts that are read into. */
export interface Reading {
  /** All files at this moment. */
  now(): Workspace;
  isRead(path: FilePath): boolean;
  read(path: FilePath): Promise<void>;
  /** Scripts whose used files are read, all of them, and were not forgotten since: they need not be looked into again. */
  whole?(): WeakSet<Script>;
  /** Told how many of those that are being read are left. */
  left?(count: number): void;
}

/** A workspace may have thousands of scripts: that long they are looked through before others have their turn. */
const SLICE_MS = 20;

/** The files that the lines of a script name, there or not: those it uses, and those of its board. */
export function filesNamedBy(script: Script): FilePath[] {
  const used = script.uses.flatMap(({ path }) => (path === null ? [] : (resolvePath(script.file, path) ?? [])));
  return [...used, ...boardFilesIn(script).flatMap(({ file }) => file ?? [])];
}

/** Once these files, and all that they use, are read. Never rejects if `read` does not. */
export async function readUsed(paths: () => readonly FilePath[], reading: Reading): Promise<void> {
  // Files that were passed may have changed while others were read: it is over once nothing was missing.
  while (await readMissing(paths(), reading));
}

/** Reads what is missing of the files and of what they use. Gives whether anything was. */
async function readMissing(from: readonly FilePath[], reading: Reading): Promise<boolean> {
  const seen = new Set<FilePath>();
  let wasMissing = false;
  let due = [...from];
  let until = Date.now() + SLICE_MS;
  while (due.length > 0) {
    const missing: FilePath[] = [];
    for (let path = due.pop(); path !== undefined; path = due.pop()) {
      if (seen.has(path)) continue;
      if (reading.isRead(path)) {
        seen.add(path);
        due.push(...lookInto(path, reading));
      } else missing.push(path);
      if (Date.now() < until) continue;
      await pause();
      until = Date.now() + SLICE_MS;
    }
    wasMissing ||= missing.length > 0;
    await readAll(missing, reading);
    // Now they are there to be looked into; one that went away again meanwhile is left for the next time.
    due = missing.filter(reading.isRead);
  }
  return wasMissing;
}

async function readAll(paths: readonly FilePath[], { read, left }: Reading): Promise<void> {
  let count = paths.length;
  await Promise.all(
    paths.map(async (path) => {
      await read(path);
      left?.(--count);
    }),
  );
}

/** What a file uses, where it is not known that all of that is read. */
function lookInto(path: FilePath, reading: Reading): readonly FilePath[] {
  const workspace = reading.now();
  const script = workspace.script(path);
  const whole = reading.whole?.();
  if (!script || whole?.has(script)) return [];
  const used = usedBy(script, workspace);
  if (used.every(reading.isRead)) whole?.add(script);
  return used;
}

function usedBy(script: Script, workspace: Workspace): FilePath[] {
  const used = script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind === "unread") return target.file;
    return target.kind === "script" ? target.script.file : [];
  });
  return [...used, ...boardFilesIn(script).flatMap(({ file }) => file ?? [])];
}
