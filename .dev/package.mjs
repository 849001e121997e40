// npm run package: makes fettle-VERSION.vsix, and checks its content.
import { readFileSync, statSync } from "node:fs";
import { fail, inProject, isMain, runTool, say } from "./say.mjs";
import { setUp } from "./setup.mjs";
import { namesInZip } from "./zip-names.mjs";

/** The limit in bytes, a little above the size it has had last, so that a part that is shipped twice is noticed. */
const mostBytes = 1_300_000;

/** The files that may be shipped. .vscodeignore excludes files; this list catches those that it misses. */
const shipped = [
  /^\[Content_Types\]\.xml$/,
  /^extension\.vsixmanifest$/,
  /^extension\/(package\.json|readme\.md|changelog\.md|LICENSE(\.txt|\.md)?)$/i,
  /^extension\/dist\/NOTICES\.txt$/,
  /^extension\/dist\/(client|server)\/[^/]+\.c?js$/,
  /^extension\/dist\/panel\/[^/]+\.(js|css)$/,
  /^extension\/grammars\/[^/]+\.json$/,
  /^extension\/client\/schemas\/[^/]+\.json$/,
  /^extension\/client\/walkthrough\/[^/]+\.(svg|md)$/,
  /^extension\/client\/icons\/[^/]+\.(svg|png)$/,
];

/** Packages the extension and returns the path of the package; ends the script if its content is wrong. */
export async function packageExtension() {
  const { version, main, browser } = JSON.parse(readFileSync(inProject("package.json"), "utf8"));
  const file = inProject(`fettle-${version}.vsix`);
  // The page of the extension is for who installs it; the README of the project is for who builds it.
  const args = [
    "package",
    "--readme-path",
    "client/page.md",
    "--no-dependencies",
    "--allow-missing-repository",
    "--no-rewrite-relative-links",
  ];
  const status = await runTool("@vscode/vsce/vsce", [...args, "--out", file]);
  if (status !== 0) fail("Packaging failed: see the message above.");
  const names = namesInZip(readFileSync(file));
  const strays = names.filter((name) => !shipped.some((pattern) => pattern.test(name)));
  if (strays.length > 0)
    fail(`The package holds what must not be shipped: ${strays.join(", ")}. Correct .vscodeignore and run this again.`);
  const needed = [
    main,
    browser,
    "dist/server/node.cjs",
    "dist/server/server.cjs",
    "dist/server/worker.js",
    "dist/panel/panel.js",
  ];
  const missing = needed
    .map((path) => `extension/${path.replace(/^\.\//, "")}`)
    .filter((name) => !names.includes(name));
  if (missing.length > 0) fail(`The package lacks ${missing.join(", ")}: without that the extension does not run.`);
  const { size } = statSync(file);
  if (size > mostBytes) fail(`The package has ${size} bytes, more than the ${mostBytes} that it may have.`);
  say(`${names.length} files, ${(size / 1000).toFixed(0)} kB: ${file}`);
  return file;
}

if (isMain(import.meta.url)) {
  await setUp();
  await packageExtension();
}
