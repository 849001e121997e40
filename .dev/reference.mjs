// npm run reference: writes the reference pages of the shipped catalogue into dist/reference, as a site and as Markdown.
// Files of an earlier run are deleted. The demo's own words are not included.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { importTs } from "./run-ts.mjs";
import { inProject, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

await setUp();
const folder = inProject("dist/reference");
const { referenceFiles } = /** @type {typeof import("./reference.ts")} */ (
  await importTs(inProject(".dev/reference.ts"))
);
const files = referenceFiles();
rmSync(folder, { recursive: true, force: true });
for (const { path, text } of files) {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}
say(`${files.length} files: open ${join(folder, "index.html")} in a browser.`);
