/** What lies in a folder, taken down and put back. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/** The bytes of each file by its path, one character each. */
export type Contents = ReadonlyMap<string, string>;

/** Of git's own folder only what a pilot may see or we write. */
const isOurs = (path: string) => !path.startsWith(".git/") || /^\.git\/(config|info\/attributes)/.test(path);

/** All files below a folder. */
export function contentsOf(folder: string): Contents {
  const found = readdirSync(folder, { recursive: true, withFileTypes: true });
  const paths = found
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .filter(isOurs)
    .sort();
  return new Map(paths.map((path) => [path, readFileSync(join(folder, path), "latin1")]));
}

/** Makes a folder hold these files again, and no others. */
export function putBack(folder: string, contents: Contents): void {
  const now = contentsOf(folder);
  for (const path of now.keys()) if (!contents.has(path)) rmSync(join(folder, path));
  for (const [path, content] of contents) {
    if (now.get(path) === content) continue;
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content, "latin1");
  }
}

/** The paths whose content differs, or that one of them does not have. */
export function changedBetween(before: Contents, after: Contents): string[] {
  const paths = new Set([...before.keys(), ...after.keys()]);
  return [...paths].filter((path) => before.get(path) !== after.get(path)).sort();
}

/** What stands beside a file while it is written, and what git's own lock is. */
export const isPart = (path: string) => /(^|\/)\.fettle-\d+\.part$|^\.git\/config\.lock$/.test(path);
