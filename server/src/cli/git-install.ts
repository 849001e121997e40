/** `fettle git install`: a repository shows readable diffs of scripts, and merges them entry by entry. */

import { nameFrom, realPathOf } from "../node/disk.ts";
import { withAttributes } from "../node/git-attributes.ts";
import { attributeFilesIn, type GitSettings, withSettings } from "../node/git-config.ts";
import {
  bytesOf,
  changeConfig,
  driversOf,
  nameFromConfig,
  type SetUpPlaces,
  setUpPlaces,
  writeBytes,
} from "../node/git-setup.ts";
import { readArguments } from "./arguments.ts";
import { inRepository, mustBeFile, mustBeWritable } from "./git-places.ts";
import { HUNK_HEADS, mergeCommand, textconvCommand } from "./git-program.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";

const help = `Usage: fettle git install

Sets the git repository around the working folder up for scripts:

  - “git diff”, “git log -p”, “git show” and “git blame” show scripts in their canonical
    layout, so that only what changed shows and not how it is laid out; each piece of a
    diff is headed by its section with the name of the craft. Patches that are to be
    applied are made without that: git format-patch, or git diff --no-textconv.
  - “git merge”, “git rebase”, “git stash pop” and the like merge them entry by entry.

It writes one line at the end of .gitattributes at the top of the working tree,

  *.fettle diff=fettle merge=fettle

unless it is there, and how this program is run into the local configuration. Commit
.gitattributes, so that each clone has it; the configuration is never shared by git, so
each clone needs its own “fettle git install”. Where .gitattributes is a link, which git
does not follow, the line goes to info/attributes in git's own folder.

Run it again whenever you like, for instance after the program has moved: it puts the new
place in. Where the program is gone, git shows scripts as they are, and merges them line by
line. “fettle git remove” undoes it, byte for byte.

Exit status: 0 set up, 2 it could not be, and nothing was changed.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {});
  if (given.paths.length > 0)
    throw new CannotRun("git install takes no path: it sets up the repository around the working folder");
  return inRepository(() => install(setUpPlaces(io.folder), io));
}

function install(places: SetUpPlaces, io: Io): ExitStatus {
  const { config, attributes } = places;
  mustBeFile(attributes, io);
  const name = nameFromConfig(places, attributes);
  const isLineThere = withAttributes(bytesOf(attributes)) === null;
  const withOurs = (text: string) => {
    const known = attributeFilesIn(text) ?? [];
    const settings: GitSettings = {
      textconv: textconvCommand(io.program),
      xfuncname: HUNK_HEADS,
      driver: mergeCommand(io.program),
      // What was there already is not ours to take out.
      attributes: isLineThere || known.includes(name) ? known : [...known, name],
    };
    return withSettings(text, settings);
  };
  const configNow = bytesOf(config) ?? "";
  const isSetUp = withOurs(configNow) === configNow;
  if (!isLineThere) mustBeWritable(attributes, io);
  if (!isSetUp) mustBeWritable(config, io);
  const { before, after } = isSetUp ? { before: configNow, after: configNow } : changeConfig(config, withOurs);
  if (!isLineThere) {
    try {
      // Read once more: somebody else may have written it since.
      const text = withAttributes(bytesOf(attributes));
      if (text !== null) writeBytes(attributes, text);
    } catch (error) {
      if (!isSetUp) changeConfig(config, (text) => (text === after ? before : text));
      throw error;
    }
  }
  tell(places, !isLineThere, !isSetUp, io);
  return 0;
}

function tell(
  { top, attributes, config, isLinked }: SetUpPlaces,
  wroteLine: boolean,
  wroteConfig: boolean,
  io: Io,
): void {
  const folder = realPathOf(io.folder);
  const [lineIn, settingsIn] = [nameFrom(folder, attributes), nameFrom(folder, config)];
  io.out(
    wroteLine || wroteConfig
      ? "git now shows readable diffs of the scripts in this repository, and merges them entry by entry.\n\n"
      : "Set up already: git shows readable diffs of the scripts here, and merges them entry by entry.\n\n",
  );
  io.out(
    `  ${lineIn}: ${wroteLine ? "one line was added" : "the line was there already"}${isLinked ? ", as git does not follow the link .gitattributes" : wroteLine ? "; commit it, so that other clones have it" : ""}\n`,
  );
  io.out(`  ${settingsIn}: how this program is run${wroteConfig ? "" : ", as before"}; each clone needs it once\n`);
  const { diff, merge } = driversOf(top);
  if (diff !== "fettle" || merge !== "fettle")
    io.error(
      `fettle: another line of attributes decides here (diff: ${diff}, merge: ${merge}), so not all of this counts: look for it with “git check-attr -a any.fettle”\n`,
    );
  io.out("\nTo undo it: fettle git remove\n");
}

export const command: Command = { help, run };
