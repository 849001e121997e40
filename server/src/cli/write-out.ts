/** Files that a command writes where it is told to, or the reason why it cannot. */
import { resolve } from "node:path";
import { writeAtomically, writeNewAtomically } from "../node/disk.ts";
import { CannotRun, type Io } from "./io.ts";

/** Writes a file whole or not at all. `keep` never replaces what has the name already. */
export function writeOut(out: string, content: string | Uint8Array, standing: "replace" | "keep", io: Io): void {
  const write = standing === "replace" ? writeAtomically : writeNewAtomically;
  try {
    write(resolve(io.folder, out), content);
  } catch (error) {
    throw new CannotRun(`${out} cannot be written: ${whyNot(error as NodeJS.ErrnoException)}`);
  }
}

function whyNot({ code, message }: NodeJS.ErrnoException): string {
  switch (code) {
    case "ENOENT":
      return "its folder is not there";
    case "ENOTDIR":
      return "it lies below a file";
    case "EISDIR":
      return "a folder has that name";
    case "EEXIST":
      return "it is there already, and --force would replace it";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "this user may not write there";
    default:
      return message;
  }
}
