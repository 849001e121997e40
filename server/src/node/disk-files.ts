/** The disk as the language server asks for it. A disk that does not answer does not block the server. */
import { readFileSync } from "node:fs";
import { lstat, readdir, realpath, stat } from "node:fs/promises";
import { sep } from "node:path";
import { isScriptFile, isSkippedFolder, isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";
import { MOST_BYTES, tooLarge } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import type { ServerFiles } from "../lsp/documents.ts";
import type { Listing } from "../lsp/workspace-files.ts";
import { whyUnreadable } from "./disk.ts";

/** A process may have only so many files open at once. */
const MOST_AT_ONCE = 32;

/** Paths are taken as they are; what is no file of the disk is missing. */
export const diskFiles: ServerFiles = {
  read: limited(MOST_AT_ONCE, async (path) => {
    // A document that is no file (an unsaved one, a comparison) has an address that no disk knows.
    if (/^[a-z][a-z0-9+.-]+:/i.test(path)) return { answer: { kind: "missing" }, realPath: path };
    const [answer, realPath] = await Promise.all([answerOf(path), realPathOf(path)]);
    return { answer, realPath };
  }),
  list: (folders) => listWorkspace(folders),
  isFolder: async (path) => (await lstat(path).catch(() => null))?.isDirectory() ?? false,
};

async function answerOf(path: FilePath): Promise<FileAnswer> {
  try {
    const found = await stat(path);
    if (!found.isFile()) return { kind: "unreadable", why: "it is no file" };
    // A disk that has answered once gives a small file at once; read asynchronously, it would take four more turns.
    return found.size > MOST_BYTES ? tooLarge(found.size) : textAnswer(readFileSync(path));
  } catch (error) {
    return whyUnreadable(error);
  }
}

async function realPathOf(path: FilePath): Promise<FilePath> {
  try {
    return (await realpath(path)).split(sep).join("/");
  } catch {
    return path;
  }
}

/** Bounds of a listing: more than any workspace of scripts has, and little enough to be looked through at once. */
export interface ListingBounds {
  readonly folders: number;
  readonly depth: number;
  readonly files: number;
  readonly ms: number;
}

const BOUNDS: ListingBounds = { folders: 5000, depth: 24, files: 10_000, ms: 2000 };

/**
 * Scripts and own words below some folders, the nearest first: not in folders that are hidden, and
 * behind no link to a folder, so that no circle is walked.
 */
export async function listWorkspace(folders: readonly FilePath[], bounds = BOUNDS): Promise<Listing> {
  const until = Date.now() + bounds.ms;
  const paths: FilePath[] = [];
  let level = [...folders];
  let left = bounds.folders;
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > bounds.depth) return { paths, cut: true };
    const next: FilePath[] = [];
    for (let i = 0; i < level.length; i += MOST_AT_ONCE) {
      const some = level.slice(i, i + Math.min(MOST_AT_ONCE, left));
      left -= some.length;
      for (const { files, below } of await Promise.all(some.map(entriesOf))) {
        paths.push(...files);
        next.push(...below);
      }
      const isOver = left <= 0 || paths.length > bounds.files || Date.now() > until;
      if (isOver && (i + some.length < level.length || next.length > 0 || paths.length > bounds.files))
        return { paths: paths.slice(0, bounds.files), cut: true };
    }
    level = next;
  }
  return { paths, cut: false };
}

/** What is of interest in a folder; nothing where it cannot be read. */
async function entriesOf(folder: FilePath): Promise<{ files: FilePath[]; below: FilePath[] }> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const base = folder.endsWith("/") ? folder : `${folder}/`;
  const isOfInterest = (name: string) => isScriptFile(name) || isWordsFile(name);
  return {
    files: entries.filter((each) => !each.isDirectory() && isOfInterest(each.name)).map(({ name }) => base + name),
    below: entries.filter((each) => each.isDirectory() && !isSkippedFolder(each.name)).map(({ name }) => base + name),
  };
}

/** As `work`, so many at once; the others wait for their turn. */
function limited<A, T>(most: number, work: (of: A) => Promise<T>): (of: A) => Promise<T> {
  const waiting: (() => void)[] = [];
  let running = 0;
  return async (of) => {
    if (running >= most) await new Promise<void>((resolve) => waiting.push(resolve));
    else running++;
    try {
      return await work(of);
    } finally {
      const next = waiting.shift();
      if (next) next();
      else running--;
    }
  };
}
