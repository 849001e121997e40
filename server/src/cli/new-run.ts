/** What `fettle new` and `fettle new handset` have in common: their options, and where the script that they make goes. */
import { readScriptFile } from "../node/disk.ts";
import { readArguments } from "./arguments.ts";
import { CannotRun, type ExitStatus, type Io, oneLine } from "./io.ts";
import { openPlace, type Place } from "./new-place.ts";
import { writeOut } from "./write-out.ts";

/** A kind of script that is made of answers. */
export interface Making {
  /** As in “where the craft goes”. */
  readonly what: "craft" | "handset";
  /** The questions as data, for programs. */
  questions(place: Place): unknown;
  /** The script from the answers in that file or, without one, from whoever is asked; `next` is said behind it. */
  make(answers: string | undefined, place: Place, out: string | undefined): Promise<Made>;
}

export interface Made {
  readonly text: string;
  readonly next: readonly string[];
}

/** Runs the command; throws `CannotRun` before a question is asked if the script could not be written afterwards. */
export async function runNew({ what, questions, make }: Making, args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    answers: { type: "string" },
    out: { type: "string" },
    force: { type: "boolean" },
    questions: { type: "boolean" },
  });
  if (given.paths.length > 0)
    throw new CannotRun(`“${given.paths[0]}” is one word too many: --out FILE says where the ${what} goes`);
  const out = given.text("out");
  if (given.has("force") && out === undefined) throw new CannotRun("--force belongs to --out: it replaces that file");
  const place = await openPlace(out, io);
  if (given.has("questions")) {
    io.out(`${JSON.stringify(questions(place), null, 2)}\n`);
    return 0;
  }
  if (out !== undefined && !given.has("force") && readScriptFile(place.file).kind !== "missing")
    throw new CannotRun(`${out} is there already: choose another name, or --force replaces it`);
  const answers = given.text("answers");
  if (answers === undefined && !io.converse)
    throw new CannotRun(
      "nobody is there to answer, since standard input is no terminal: --answers FILE takes the answers, and --questions shows what there is to answer",
    );
  const { text, next } = await make(answers, place, out);
  if (out === undefined) io.out(text);
  else {
    writeOut(out, text, given.has("force") ? "replace" : "keep", io);
    if (answers === undefined) io.error(`\n${oneLine(out)} is written\n`);
  }
  if (answers === undefined) for (const each of next) io.error(`${each}\n`);
  return 0;
}
