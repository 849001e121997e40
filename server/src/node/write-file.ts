/** Files written whole or not at all, whatever ends this program or the disk on the way. */
import {
  accessSync,
  chmodSync,
  chownSync,
  closeSync,
  constants,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";

/** The code of the error that a read-only file gives, which is the system's own for a whole disk. */
export const READ_ONLY = "FETTLE_READ_ONLY";

/**
 * Writes a file whole or not at all: beside its place first, then moved there. What is replaced leaves its rights and
 * its owner; a link stays, and the file that it leads to is replaced. What is no file, such as /dev/null or a pipe, is
 * written as it is.
 * @throws the system's error, or one with the code `READ_ONLY`, and then nothing has changed
 */
export function writeAtomically(path: string, content: string | Uint8Array): void {
  const before = statSync(path, { throwIfNoEntry: false });
  if (before && !before.isFile()) {
    writeFileSync(path, content);
    return;
  }
  if (before) mayBeReplaced(path, before);
  const target = targetOf(path);
  withPart(target, content, before, (part) => renameSync(part, target));
}

/** Error codes of file systems without hard links, as on most memory cards. */
const NO_SECOND_NAMES = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS"]);

/**
 * Writes a new file, whole or not at all; what has the name already stays. On a disk without hard links the name is
 * taken by an empty file for a moment.
 * @throws the system's error, EEXIST where something has the name, and then nothing has changed
 */
export function writeNewAtomically(path: string, content: string | Uint8Array): void {
  withPart(path, content, undefined, (part) => {
    try {
      // A hard link is created only if the name is free, in one atomic step.
      linkSync(part, path);
      removeQuietly(part);
    } catch (error) {
      if (!NO_SECOND_NAMES.has(codeOf(error))) throw error;
      const taken = openSync(path, "wx");
      try {
        closeSync(taken);
        renameSync(part, path);
      } catch (moving) {
        removeQuietly(path);
        throw moving;
      }
    }
  });
}

/**
 * Makes a folder with those above it; one that is there is left as it is. Step by step: asked for
 * all at once, Node never comes back from a place that says of a folder in it that it is missing.
 */
export function makeFolder(path: string): void {
  const isThere = () => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  if (isThere()) return;
  const above = dirname(path);
  if (above !== path) makeFolder(above);
  try {
    mkdirSync(path);
  } catch (error) {
    // Somebody else may have made it meanwhile.
    if (codeOf(error) !== "EEXIST" || !isThere()) throw error;
  }
}

/** A file could be replaced although it is read-only, which is not what its owner means by that. */
function mayBeReplaced(path: string, { mode }: Stats): void {
  // Whoever may do anything is told so of every file, so the rights are looked at besides.
  if ((mode & 0o222) === 0) throw Object.assign(new Error("it is read-only"), { code: READ_ONLY });
  accessSync(path, constants.W_OK);
}

/** As many links as systems follow from one to the next. */
const MOST_LINKS = 40;

/** The place that a path leads to through links, also where nothing is there yet. */
function targetOf(path: string): string {
  let target = path;
  for (let i = 0; i < MOST_LINKS && lstatSync(target, { throwIfNoEntry: false })?.isSymbolicLink(); i++)
    target = resolve(realpathSync(dirname(target)), readlinkSync(target));
  return target;
}

/** Puts the content into a file beside a place and has it `put` there; where that fails nothing is left of it. */
function withPart(
  target: string,
  content: string | Uint8Array,
  before: Stats | undefined,
  put: (part: string) => void,
): void {
  const folder = dirname(target);
  removeLeftOver(folder);
  const part = join(folder, `.fettle-${process.pid}.part`);
  // Of an earlier process with the same number.
  removeQuietly(part);
  try {
    writePart(part, content, before);
    put(part);
  } catch (error) {
    removeQuietly(part);
    throw error;
  }
}

function writePart(part: string, content: string | Uint8Array, before: Stats | undefined): void {
  // It is for nobody's eyes before it has the rights of what it replaces.
  const descriptor = openSync(part, "wx", before ? 0o600 : 0o666);
  try {
    writeFileSync(descriptor, content);
    // Moved before it is on the disk, it could be empty after a power cut, and what it replaces gone.
    if (before) fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  if (before) setRights(part, before);
}

/** What a disk answers that keeps no rights, or keeps them for the owner to change. */
const NO_RIGHTS = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS"]);

function setRights(path: string, { mode, uid, gid }: Stats): void {
  const now = statSync(path);
  for (const set of [
    () => (now.uid !== uid || now.gid !== gid) && chownSync(path, uid, gid),
    () => chmodSync(path, mode & 0o7777),
  ]) {
    try {
      set();
    } catch (error) {
      if (!NO_RIGHTS.has(codeOf(error))) throw error;
    }
  }
}

/** Folders in which nothing is left over of a run that was ended in the middle. */
const tidied = new Set<string>();
const PART = /^\.fettle-(\d+)\.part$/;

/** Removes what a run left that was ended while it wrote; what another is writing at the moment stays. */
function removeLeftOver(folder: string): void {
  if (tidied.has(folder)) return;
  tidied.add(folder);
  for (const name of namesIn(folder)) {
    const [, id] = PART.exec(name) ?? [];
    if (id !== undefined && !isRunning(Number(id))) removeQuietly(join(folder, name));
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    // What is wrong with it is told where it is written to.
    return [];
  }
}

/** Whether another process has this number. */
function isRunning(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== "ESRCH";
  }
}

/** What cannot be removed is no reason to fail: the content is where it belongs, or the fault told already. */
export function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Whoever writes next removes it, or says that it is there.
  }
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? "";
}
