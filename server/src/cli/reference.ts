/** `fettle reference`: the pages of all names, as a site that needs no server and as Markdown. */
import { join, resolve } from "node:path";
import { referenceOf } from "../../../shared/ide/reference/reference.ts";
import { makeFolder, writeAtomically } from "../node/disk.ts";
import { readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { wordsAround } from "./own-words.ts";

const help = `Usage: fettle reference --out FOLDER

Writes what there is to know of every section, setting, mode, element, unit and rule:
index.html, which opens from the disk and searches names and plain words, and the same
pages as Markdown. Settings and words of your own, from the workspace that the working
folder stands in, are among them.

  --out FOLDER   where to write it; made where it is not there. Other files in it stay
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { out: { type: "string" } });
  const out = given.text("out");
  if (out === undefined) throw new CannotRun("say where the reference goes: --out FOLDER");
  if (given.paths.length > 0) throw new CannotRun(`reference takes no path, and “${given.paths[0]}” is one`);
  const { catalogue } = await wordsAround(io);
  const files = referenceOf(catalogue);
  for (const { path, text } of files) {
    const file = join(resolve(io.folder, out), path);
    try {
      makeFolder(join(file, ".."));
      writeAtomically(file, text);
    } catch (error) {
      throw new CannotRun(`${file} cannot be written: ${(error as Error).message}`);
    }
  }
  io.out(`${files.length} files written: open ${join(out, "index.html")} in a browser\n`);
  return 0;
}

export const command: Command = { help, run };
