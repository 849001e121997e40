/** `fettle reference`: the pages of all names, as a site that needs no server and as Markdown. */
import { join, resolve } from "node:path";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { referenceOf } from "../../../shared/ide/reference/reference.ts";
import { toPath } from "../node/disk.ts";
import { readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { wordsBelow } from "./own-words.ts";
import { makeFolderOf, writeOut } from "./write-out.ts";

const help = `Usage: fettle reference --out FOLDER [--words FOLDER]

Writes what there is to know of every section, setting, mode, element, unit and rule:
index.html, which opens from the disk and searches names and plain words, and the same
pages as Markdown. It tells of what ships; settings and words of your own are added
from the folder that --words names.

  --out FOLDER     where to write it; made where it is not there. Other files in it stay
  --words FOLDER   add the *.catalogue.json and *.aliases.json below this folder
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { out: { type: "string" }, words: { type: "string" } });
  const out = given.text("out");
  if (out === undefined) throw new CannotRun("say where the reference goes: --out FOLDER");
  if (given.paths.length > 0) throw new CannotRun(`reference takes no path, and “${given.paths[0]}” is one`);
  const words = given.text("words");
  const catalogue =
    words === undefined ? makeCatalogue() : (await wordsBelow(toPath(resolve(io.folder, words)), io)).catalogue;
  const files = referenceOf(catalogue);
  for (const { path, text } of files) {
    const file = join(out, path);
    makeFolderOf(file, io);
    writeOut(file, text, "replace", io);
  }
  io.out(`${files.length} files written: open ${join(out, "index.html")} in a browser\n`);
  return 0;
}

export const command: Command = { help, run };
