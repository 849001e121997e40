// The licences of the bundled packages, which must be included with every copy.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fail, inProject } from "./say.mjs";

/** Writes dist/NOTICES.txt for the files in the bundles, given as paths in the project. */
export function writeNotices(/** @type {Iterable<string>} */ bundledFiles) {
  const folders = new Set([...bundledFiles].flatMap((file) => packageFolder(file) ?? []));
  const parts = [...folders].sort().map(notice);
  mkdirSync(inProject("dist"), { recursive: true });
  writeFileSync(inProject("dist/NOTICES.txt"), `Fettle contains code of these packages.\n\n${parts.join("\n\n")}`);
}

function packageFolder(/** @type {string} */ file) {
  return file.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0] ?? null;
}

function notice(/** @type {string} */ folder) {
  const manifest = JSON.parse(readFileSync(inProject(folder, "package.json"), "utf8"));
  const file = readdirSync(inProject(folder)).find((name) => /^licen[cs]e/i.test(name));
  const text = file ? readFileSync(inProject(folder, file), "utf8").trim() : null;
  if (!text && !manifest.license) fail(`${folder} has no licence, so it cannot be shipped.`);
  return `${"-".repeat(70)}\n${manifest.name} ${manifest.version}\n\n${text ?? `Licence: ${manifest.license}`}`;
}
