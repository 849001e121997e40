/** `fettle git remove`: what `fettle git install` put into a repository is taken out. */
import { nameFrom, realPathOf } from "../node/disk.ts";
import { withoutAttributes } from "../node/git-attributes.ts";
import { attributeFilesIn, withoutAttributeFile, withoutSettings } from "../node/git-config.ts";
import {
  bytesOf,
  changeConfig,
  fileFromConfig,
  nameFromConfig,
  removeFile,
  type SetUpPlaces,
  setUpPlaces,
  writeBytes,
} from "../node/git-setup.ts";
import { readArguments } from "./arguments.ts";
import { inRepository, mustBeWritable } from "./git-places.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";

const help = `Usage: fettle git remove

Takes out of the git repository around the working folder what “fettle git install” put in:
the line of .gitattributes, if install wrote it, and the part of the local configuration.
Every byte besides stays, also what was written in the meantime; a .gitattributes that held
nothing else is removed. A line that was there before, as in a clone of a repository that
has it, stays: without the configuration it does nothing.

Working trees of one repository share the configuration: it stays until it is removed from
the last one in which it was installed.

Exit status: 0 removed, or nothing was there; 2 it could not be, and nothing was changed.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {});
  if (given.paths.length > 0)
    throw new CannotRun("git remove takes no path: it is about the repository around the working folder");
  return inRepository(() => remove(setUpPlaces(io.folder), io));
}

/** A file of attributes that install wrote to, with what is left of it. */
interface LineThere {
  readonly file: string;
  readonly left: string | "remove";
}

function remove(places: SetUpPlaces, io: Io): ExitStatus {
  const { config } = places;
  const configBefore = bytesOf(config) ?? "";
  const names = attributeFilesIn(configBefore);
  if (names === null) {
    io.out("Nothing is set up in this repository, so nothing was changed.\n");
    return 0;
  }
  const written = names.flatMap((name): LineThere[] => {
    const file = fileFromConfig(places, name);
    const left = withoutAttributes(bytesOf(file) ?? "");
    return left === null ? [] : [{ file, left }];
  });
  const isHere = ({ file }: LineThere) =>
    nameFromConfig(places, file) === nameFromConfig(places, places.attributes) || isOfAll(file);
  const here = written.filter(isHere);
  const elsewhere = written.filter((each) => !isHere(each));
  const withoutOurs = (text: string) =>
    elsewhere.length === 0
      ? (withoutSettings(text) ?? text)
      : here.reduce((left, { file }) => withoutAttributeFile(left, nameFromConfig(places, file)), text);
  for (const { file } of here) mustBeWritable(file, io);
  mustBeWritable(config, io);
  const before = new Map(here.map(({ file }) => [file, bytesOf(file)!]));
  try {
    // The configuration last: as long as it names these files, whatever ends this in the middle can be made good.
    for (const { file, left } of here) {
      if (left === "remove") removeFile(file);
      else writeBytes(file, left);
    }
    changeConfig(config, withoutOurs);
  } catch (error) {
    for (const [file, text] of before) if (bytesOf(file) !== text) writeBytes(file, text);
    throw error;
  }
  tell(places, here, elsewhere, io);
  return 0;
}

/** A file in git's own folder counts for all working trees. */
function isOfAll(file: string): boolean {
  return /[\\/]info[\\/]attributes$/.test(file);
}

function tell({ config }: SetUpPlaces, here: readonly LineThere[], elsewhere: readonly LineThere[], io: Io): void {
  const nameOf = (file: string) => nameFrom(realPathOf(io.folder), file);
  io.out("git shows and merges scripts in this working tree as it does any text.\n\n");
  for (const { file, left } of here)
    io.out(
      `  ${nameOf(file)}: ${left === "remove" ? "removed, as nothing else was in it" : "the line was taken out"}\n`,
    );
  if (elsewhere.length === 0) io.out(`  ${nameOf(config)}: our part was taken out\n`);
  for (const { file } of elsewhere) io.out(`  still set up for ${nameOf(file)}: remove it there as well\n`);
  io.out("\nTo have it again: fettle git install\n");
}

export const command: Command = { help, run };
