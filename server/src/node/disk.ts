/** The disk, as it is read; `write-file.ts` writes it. Paths are absolute, with `/`. */
import { type Dirent, existsSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { dirname, join, resolve, sep } from "node:path";
import { isBelow, isScriptFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer } from "../../../shared/model/files.ts";
import { MOST_BYTES, tooLarge } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";

const SKIPPED = new Set(["node_modules", ".git"]);

/** Whether no script is looked for in a folder of this name. */
export function isSkipped(name: string): boolean {
  return SKIPPED.has(name);
}

/** A path of this machine as the core writes it. */
export function toPath(path: string): string {
  return resolve(path).split(sep).join("/");
}

/** Whether something is at a path; false for a link that leads nowhere. */
export function isThere(path: string): boolean {
  return existsSync(path);
}

/** Whether a path is a folder; false if it does not exist or cannot be accessed. */
export function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/** What a path holds. Never throws: what cannot be read is told as the reason why. */
export function readScriptFile(path: string): FileAnswer {
  try {
    const found = statSync(path);
    if (!found.isFile()) return { kind: "unreadable", why: "it is no file" };
    return found.size > MOST_BYTES ? tooLarge(found.size) : textAnswer(readFileSync(path));
  } catch (error) {
    return whyUnreadable(error);
  }
}

/** The bytes of a file that is no larger than what is read of any; else the reason why not, as it follows a name and a colon. */
export function readFileBytes(path: string): Uint8Array | string {
  try {
    const found = statSync(path);
    if (!found.isFile()) return "it is no file";
    return found.size > MOST_BYTES ? "it is larger than 1 MB, and board text is read up to that" : readFileSync(path);
  } catch (error) {
    const answer = whyUnreadable(error);
    return answer.kind === "unreadable" ? answer.why : "there is no such file";
  }
}

/** The bytes of a file of any size; else the reason why not, as it follows a name and a colon. */
export function readAnyBytes(path: string): Uint8Array | string {
  try {
    return statSync(path).isFile() ? readFileSync(path) : "it is no file";
  } catch (error) {
    const answer = whyUnreadable(error);
    return answer.kind === "unreadable" ? answer.why : "there is no such file";
  }
}

const WHY_UNREADABLE = new Map([
  ["EACCES", "this user may not read it"],
  ["ELOOP", "the links that lead to it go in a circle"],
]);

/** What stands for a file that the disk does not give. */
export function whyUnreadable(error: unknown): FileAnswer {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === "ENOENT" || code === "ENOTDIR") return { kind: "missing" };
  return { kind: "unreadable", why: WHY_UNREADABLE.get(code ?? "") ?? message };
}

/**
 * The one path of the real file behind a path, spelled as the disk has it, which may take capitals or composed letters
 * for the same; the path itself where there is no file.
 */
export function realPathOf(path: string): string {
  try {
    return toPath(realpathSync.native(path));
  } catch {
    return path;
  }
}

/** Takes a folder that cannot be read, and why. */
type Report = (path: string, why: string) => void;

/** Every script below a folder, in order of path. Folders that cannot be read are told to `report`. */
export function listScripts(folder: string, report?: Report): string[] {
  return listFiles(folder, isScriptFile, report);
}

/** Every file below a folder with a matching name, in order of path; `report` as for scripts. */
export function listFiles(folder: string, matches: (name: string) => boolean, report?: Report): string[] {
  const found: string[] = [];
  const visit = (path: string): void => {
    for (const entry of entriesOf(path, report)) {
      const below = join(path, entry.name);
      if (entry.isDirectory()) {
        if (!SKIPPED.has(entry.name)) visit(below);
      } else if (matches(entry.name)) {
        found.push(toPath(below));
      }
    }
  };
  visit(folder);
  return found.sort((a, b) => (a < b ? -1 : 1));
}

/**
 * The files below a folder with a matching name, in order of path. It searches the nearest
 * folders first, into none that is hidden, and into at most so many; `unseen` is true where there
 * were more. The root of a disk is never a workspace, so nothing is listed there.
 */
export function listNearest(
  folder: string,
  matches: (name: string) => boolean,
  mostFolders: number,
): { readonly files: string[]; readonly unseen: boolean } {
  const files: string[] = [];
  const folders = dirname(folder) === folder ? [] : [folder];
  for (let i = 0; i < Math.min(folders.length, mostFolders); i++) {
    for (const entry of entriesOf(folders[i]!)) {
      if (entry.isDirectory()) {
        if (!SKIPPED.has(entry.name) && !entry.name.startsWith(".")) folders.push(join(folders[i]!, entry.name));
      } else if (matches(entry.name)) {
        files.push(toPath(join(folders[i]!, entry.name)));
      }
    }
  }
  return { files: files.sort((a, b) => (a < b ? -1 : 1)), unseen: folders.length > mostFolders };
}

/** What lies in a folder; nothing where it cannot be read, which is told to `report`. */
function entriesOf(folder: string, report?: Report): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    report?.(folder, (error as Error).message);
    return [];
  }
}

/** A file as one in this folder calls it: from there on where it lies below, else whole. */
export function nameFrom(folder: string, file: string): string {
  if (!isBelow(file, folder) || file === folder) return file;
  return file.slice(folder === "/" ? 1 : folder.length + 1);
}
