/** `fettle board`: which of its commands. */
import { similarNames } from "../../../shared/model/similar-names.ts";
import { CannotRun, type Command } from "./io.ts";

const help = `Usage: fettle board read|write|move|learn [ARGUMENTS]

A board's text in and out, by a dialect: a file that says how one board's text and the words
of scripts map onto each other.

  board read   a board's text as a script
  board write  a craft as its board's text, or only the lines that change
  board move   the text of one board as the text of another
  board learn  a dialect, proposed from texts and what they mean

fettle board read --help says more, and so for the others.
`;

const NAMES = ["read", "write", "move", "learn"];

export const command: Command = {
  help,
  async run([name]) {
    if (name === undefined) throw new CannotRun("say what of a board: board read, write, move or learn");
    const [near] = similarNames(name, NAMES, 1);
    throw new CannotRun(
      `there is no command “board ${name}”: ${near ? `did you mean board ${near}?` : "it is board read, write, move or learn"}`,
    );
  },
};
