/** `fettle new`: a craft from a few questions. */
import { NAME_PROMPT, readAnswers, USUAL_NAME } from "../../../shared/ide/new-craft/answers.ts";
import { newCraft } from "../../../shared/ide/new-craft/new-craft.ts";
import { allQuestions, type FoundFiles } from "../../../shared/ide/new-craft/questions.ts";
import { askAnswers } from "./ask-answers.ts";
import { CannotRun, type Command, type Io, oneLine } from "./io.ts";
import { type Place, readJson } from "./new-place.ts";
import { runNew } from "./new-run.ts";

const help = `Usage: fettle new [--out FILE] [--force]
       fettle new --answers FILE [--out FILE] [--force]
       fettle new --questions

Writes a craft to begin with: some thirty lines, each with the reason why it is there,
in which fettle check finds nothing. At a terminal the questions are asked, and Enter
takes the usual answer. Handsets and layers are those of the repository or the folder;
a handset can be made on the way, as fettle new handset makes one.

  --answers FILE  the answers as JSON, as in {"name": "Jug", "size": "5-inch"}; what is
                  not answered has the usual answer; “-” reads them from standard input
  --out FILE      where the craft goes, in place of standard output
  --force         replace FILE if it is there already
  --questions     the questions with all their answers, as JSON

Exit status: 0 the craft is written, 2 it cannot be.
`;

const run = (args: readonly string[], io: Io) =>
  runNew(
    {
      what: "craft",
      questions: ({ found }) => questionsForPrograms(found),
      async make(path, place, out) {
        const { answers, found, workspace } = await answersFrom(path, place, out, io);
        const { text, leftOut } = newCraft(answers, found, workspace, place.file);
        for (const { path, why } of leftOut) io.error(`${oneLine(`${path} is left out: ${why}`)}\n`);
        return { text, next: [] };
      },
    },
    args,
    io,
  );

/** The answers, and the place as it is by then: a handset may have been made on the way. */
async function answersFrom(path: string | undefined, place: Place, out: string | undefined, io: Io) {
  const { found, workspace } = place;
  if (path === undefined) {
    for (const { path, why } of found.notOffered) io.error(`${oneLine(`${path} cannot be used: ${why}`)}\n`);
    return askAnswers(place, out, io);
  }
  const understood = readAnswers(found, await readJson(path, io));
  if (understood.kind === "problem") throw new CannotRun(understood.problem);
  return { answers: understood.answers, found, workspace };
}

/** The questions as data, with the name among them and without what only the asking needs. */
function questionsForPrograms(found: FoundFiles) {
  const name = { id: "name", prompt: NAME_PROMPT, many: false, usual: USUAL_NAME, choices: null };
  return [name, ...allQuestions(found)];
}

export const command: Command = { help, run };
