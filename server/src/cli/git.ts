/** `fettle git`: what there is to say of its commands. */
import { CannotRun, type Command } from "./io.ts";

const help = `Usage: fettle git install
       fettle git remove
       fettle git text FILE

Readable diffs, hunk heads and merges of scripts in the git repository around the working
folder.

  install   sets it up: a line in .gitattributes, and how to run this program in the local
            configuration of the repository
  remove    takes out what install put in, byte for byte
  text      what git shows of a script: its canonical layout, with the name of the craft
            behind the name of each section (git runs this; it never fails)

fettle git install --help says more of each.
`;

export const command: Command = {
  help,
  async run(args) {
    const [word] = args;
    throw new CannotRun(
      word === undefined
        ? "say which: fettle git install, or fettle git remove"
        : `there is no command “git ${word}”: there are git install, git remove and git text`,
    );
  },
};
