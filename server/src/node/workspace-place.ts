/** Which folder of the disk is a script's workspace. */
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { isBelow } from "../../../shared/model/file-names.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import { isFolder, toPath } from "./disk.ts";

/** A file of this name, whatever it holds, marks its folder as a workspace: for those who keep no git repository. */
export const ROOT_MARK = ".fettle-root";

/** Where scripts and own words are looked for, and how far a `use` leads. */
export interface WorkspacePlace {
  readonly folder: FilePath;
  /**
   * `below`: all that lies below the folder belongs to the workspace, and no other file is read.
   * `alone`: what lies in the folder itself does, and what a `use` leads to, wherever that is.
   */
  readonly reach: "below" | "alone";
}

/**
 * The nearest folder around a path that is marked as a workspace or is a git repository; else the
 * working folder, if it holds the path; else the path itself, where it is a folder. A script that
 * lies about by itself has its own folder and what it uses: what strangers keep beside it is not its.
 */
export function workspaceOf(path: FilePath, workingFolder: FilePath): WorkspacePlace {
  const folder = isFolder(path) ? path : dirname(path);
  for (let each = folder; ; each = dirname(each)) {
    if (isMarked(each)) return { folder: toPath(each), reach: "below" };
    if (dirname(each) === each) break;
  }
  if (isBelow(toPath(path), toPath(workingFolder))) return { folder: toPath(workingFolder), reach: "below" };
  return { folder: toPath(folder), reach: isFolder(path) ? "below" : "alone" };
}

/** That of a script that was found below a folder: of the marked folders between the two the nearest, else the folder's own. */
export function workspaceBelow(file: FilePath, around: WorkspacePlace): WorkspacePlace {
  for (let each = dirname(file); each !== around.folder && isBelow(each, around.folder); each = dirname(each))
    if (isMarked(each)) return { folder: toPath(each), reach: "below" };
  return around;
}

/** Whether a folder is marked as a workspace or is a git repository. */
export function isMarked(folder: FilePath): boolean {
  return existsSync(join(folder, ROOT_MARK)) || existsSync(join(folder, ".git"));
}
