/** The scripts of a folder of fixtures. */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../.dev/say.mjs";

/** The text of each script in and below a folder of `tests/fixtures`, by its path from there, in order. */
export function scriptsIn(folder: string): Readonly<Record<string, string>> {
  const paths = readdirSync(inProject("tests/fixtures", folder), { recursive: true, encoding: "utf8" });
  return Object.fromEntries(
    paths
      .filter((path) => path.endsWith(".fettle"))
      .map((path) => `${folder}/${path.replaceAll("\\", "/")}`)
      .sort()
      .map((path) => [path, readFileSync(inProject("tests/fixtures", path), "utf8")]),
  );
}
