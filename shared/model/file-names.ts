/** What a path tells by itself: which kind of file has it, and below which folder it lies. */

import type { FilePath } from "./files.ts";

/** The end of every script's name. */
export const SCRIPT_END = ".fettle";
/** How the name of a board's saved text usually ends. */
export const BOARD_TEXT_END = ".txt";
/** The ends of the names of a pilot's own files: further settings, and words for what there is. */
export const CATALOGUE_END = ".catalogue.json";
const ALIASES_END = ".aliases.json";
export const OWN_WORDS_ENDS: readonly string[] = [CATALOGUE_END, ALIASES_END];

/** True for the name or the path of a script. */
export function isScriptFile(path: FilePath): boolean {
  return path.endsWith(SCRIPT_END);
}

/** True for the name or the path of a file of own settings or own words. */
export function isWordsFile(path: FilePath): boolean {
  return OWN_WORDS_ENDS.some((end) => path.endsWith(end));
}

/** True where a path is a folder or lies below it; both with `/`, and both real or both not. */
export function isBelow(path: FilePath, folder: FilePath): boolean {
  return path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}

/** Folders in which nobody keeps scripts, besides the hidden ones: what is installed there belongs to others. */
export function isSkippedFolder(name: string): boolean {
  return name === "node_modules" || (name.startsWith(".") && name !== "." && name !== "..");
}

/** True where a path, from the folder that is looked through, leads through a folder that is skipped. */
export function isHidden(path: FilePath): boolean {
  return path.split("/").slice(0, -1).some(isSkippedFolder);
}
