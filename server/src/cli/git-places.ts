/** What `fettle git install` and `remove` share: refusals in words. */
import { isFolder, nameFrom, realPathOf } from "../node/disk.ts";
import { NoRevision } from "../node/git.ts";
import { whyNotWritten } from "../node/git-setup.ts";
import { CannotRun, type ExitStatus, type Io } from "./io.ts";
import { whyRefused } from "./write-out.ts";

/** Runs what works on a repository; what git or the disk refuses is told in one line. */
export function inRepository(work: () => ExitStatus): ExitStatus {
  try {
    return work();
  } catch (error) {
    if (error instanceof NoRevision) throw new CannotRun(error.message);
    const { code, path } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new CannotRun(`${path ?? "a file"} cannot be written: ${whyRefused(error)}`);
  }
}

/** Refuses before anything is written. */
export function mustBeWritable(path: string, io: Io): void {
  const why = whyNotWritten(path);
  if (why !== null)
    throw new CannotRun(`${nameFrom(realPathOf(io.folder), path)} cannot be written: ${why}; nothing was changed`);
}

/** Refuses where something else than a file has the name. */
export function mustBeFile(path: string, io: Io): void {
  if (isFolder(path))
    throw new CannotRun(
      `${nameFrom(realPathOf(io.folder), path)} is a folder, and git keeps attributes in a file of that name`,
    );
}
