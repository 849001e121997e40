// Facts about the demo workspace for the scripts in this folder.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * The first craft in a folder, by name, of those that lie in the fewest folders, as a path relative to it with "/"; null
 * where there is none. What lies deeper was made of something else, as by a board.
 * @param {string} folder
 * @returns {string | null}
 */
export function firstCraft(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" });
  const scripts = files.filter((file) => file.endsWith(".fettle")).map((file) => file.replaceAll("\\", "/"));
  const depth = (/** @type {string} */ path) => path.split("/").length;
  scripts.sort((a, b) => depth(a) - depth(b) || (a < b ? -1 : 1));
  return scripts.find((path) => /^craft\s/m.test(readFileSync(join(folder, path), "utf8"))) ?? null;
}
