/** Files that a command writes where it is told to, or the reason why it cannot. */
import { dirname, resolve } from "node:path";
import { makeFolder, READ_ONLY, writeAtomically, writeNewAtomically } from "../node/write-file.ts";
import { CannotRun, type Io } from "./io.ts";

/** Writes a file whole or not at all. `keep` never replaces what has the name already. */
export function writeOut(out: string, content: string | Uint8Array, standing: "replace" | "keep", io: Io): void {
  const write = standing === "replace" ? writeAtomically : writeNewAtomically;
  try {
    write(resolve(io.folder, out), content);
  } catch (error) {
    throw new CannotRun(`${out} cannot be written: ${whyRefused(error)}`);
  }
}

/** Makes the folder of a file, with those above it. */
export function makeFolderOf(out: string, io: Io): void {
  try {
    makeFolder(dirname(resolve(io.folder, out)));
  } catch (error) {
    // A folder takes the place of nothing, so what has its name is a file.
    const why = (error as NodeJS.ErrnoException).code === "EEXIST" ? WHY_REFUSED.get("ENOTDIR") : whyRefused(error);
    throw new CannotRun(`${out} cannot be written: ${why}`);
  }
}

const NOT_ALLOWED = "this user may not write there";
const FULL = "the disk is full: make room and run it again";

/** What the system refuses with, in words that follow a name and “cannot be written”. */
const WHY_REFUSED: ReadonlyMap<string, string> = new Map([
  ["ENOENT", "its folder is not there"],
  ["ENOTDIR", "it lies below a file"],
  ["EISDIR", "a folder has that name"],
  ["EEXIST", "it is there already, and --force would replace it"],
  ["EACCES", NOT_ALLOWED],
  ["EPERM", NOT_ALLOWED],
  ["EROFS", "the disk is read-only"],
  [READ_ONLY, "it is read-only: make it writable first"],
  ["ENOSPC", FULL],
  ["EDQUOT", FULL],
  ["EFBIG", "the disk takes no file that large"],
  ["EIO", "the disk does not take it: it may be damaged, or gone"],
  ["EBUSY", "another program holds it: close it there and run it again"],
  ["EMFILE", "too many files are open on this machine: run it again later"],
  ["ENFILE", "too many files are open on this machine: run it again later"],
  ["ELOOP", "the links that lead to it go in a circle"],
  ["ENAMETOOLONG", "its name is too long for this disk"],
]);

/** Why the disk refused, in words that follow a name and “cannot be written”. */
export function whyRefused(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return WHY_REFUSED.get(code ?? "") ?? message;
}
