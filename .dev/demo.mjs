// Facts about the demo workspace for the scripts in this folder.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * The first craft in a folder, by name, as a path relative to it with "/"; null where there is none.
 * @param {string} folder
 * @returns {string | null}
 */
export function firstCraft(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" });
  const scripts = files.filter((file) => file.endsWith(".fettle")).sort();
  const craft = scripts.find((file) => /^craft\s/m.test(readFileSync(join(folder, file), "utf8")));
  return craft?.replaceAll("\\", "/") ?? null;
}
