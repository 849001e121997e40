/** What a path tells by itself: which kind of file has it, and below which folder it lies. */

/** The end of every script's name. */
export const SCRIPT_END = ".fettle";
/** The ends of the names of a pilot's own files: further settings, and words for what there is. */
export const CATALOGUE_END = ".catalogue.json";
const ALIASES_END = ".aliases.json";
export const OWN_WORDS_ENDS: readonly string[] = [CATALOGUE_END, ALIASES_END];

/** True for the name or the path of a script. */
export function isScriptFile(path: string): boolean {
  return path.endsWith(SCRIPT_END);
}

/** True for the name or the path of a file of own settings or own words. */
export function isWordsFile(path: string): boolean {
  return OWN_WORDS_ENDS.some((end) => path.endsWith(end));
}

/** True where a path is a folder or lies below it; both with `/`, and both real or both not. */
export function isBelow(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}
