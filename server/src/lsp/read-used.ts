/** Reads what scripts use, and what those use in turn. */
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { pause } from "./timers.ts";

/** The texts that are read into. */
export interface Reading {
  /** All files at this moment. */
  now(): Workspace;
  isRead(path: FilePath): boolean;
  read(path: FilePath): Promise<void>;
}

/** A workspace may have thousands of scripts: that long they are looked through before others have their turn. */
const SLICE_MS = 20;
/** Once these files, and all that they use, are read. Never rejects if `read` does not. */
export async function readUsed(paths: () => readonly FilePath[], reading: Reading): Promise<void> {
  for (;;) {
    const missing = await unread(paths(), reading);
    if (missing.length === 0) return;
    await Promise.all(missing.map(reading.read));
  }
}

/** Those of the files, and of what they use, that nobody has read. */
async function unread(from: readonly FilePath[], reading: Reading): Promise<FilePath[]> {
  const missing = new Set<FilePath>();
  const seen = new Set<FilePath>();
  const due: FilePath[] = [...from].reverse();
  let until = Date.now() + SLICE_MS;
  for (let path = due.pop(); path !== undefined; path = due.pop()) {
    if (seen.has(path)) continue;
    seen.add(path);
    if (reading.isRead(path)) due.push(...usedBy(path, reading.now()));
    else missing.add(path);
    if (Date.now() < until) continue;
    await pause();
    until = Date.now() + SLICE_MS;
  }
  return [...missing];
}

function usedBy(path: FilePath, workspace: Workspace): FilePath[] {
  const script = workspace.script(path);
  if (!script) return [];
  return script.uses.flatMap((use) => {
    const target = workspace.target(script, use);
    if (target.kind === "unread") return target.file;
    return target.kind === "script" ? target.script.file : [];
  });
}
