// The demo workspace, as the scripts here need to know it.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * The first craft of a folder, by name, as a path in it with "/"; null where it has none.
 * @param {string} folder
 * @returns {string | null}
 */
export function firstCraft(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" });
  const scripts = files.filter((file) => file.endsWith(".fettle")).sort();
  const craft = scripts.find((file) => /^craft\s/m.test(readFileSync(join(folder, file), "utf8")));
  return craft?.replaceAll("\\", "/") ?? null;
}
