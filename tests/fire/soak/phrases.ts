/** What a pilot types into each kind of document: the lines of the demo, most of which fit and some of which do not. */
import { readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import { projectFiles } from "../../tidy/sources.ts";

const linesBelow = (folder: string): string[] => {
  const paths = projectFiles().filter((path) => path.startsWith(folder) && /\.(fettle|json)$/.test(path));
  return paths.flatMap((path) => readFileSync(inProject(path), "utf8").split("\n"));
};

const scripts = [...linesBelow("examples/craft/"), ...linesBelow("examples/layers/"), "drop osd", "modes", "arm when"];
const handsets = linesBelow("examples/handsets/");
const dialects = linesBelow("examples/boards/");
/** A setting more makes the catalogue another one, and so does a word of an old one. */
const words = [...linesBelow("examples/words/"), '    "bell": "pack.warn-at",', '  "words": ["lamp"],', "}", "["];

/** Lines that belong into a document, one of them drawn for each line that is written. */
export function phrasesFor(path: string): readonly string[] {
  if (path.endsWith(".json")) return words;
  if (path.startsWith("handsets/")) return handsets;
  return path === "loom.fettle" ? dialects : scripts;
}
