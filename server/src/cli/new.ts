/** `fettle new`: a craft from a few questions. */
import { NAME_PROMPT, readAnswers, USUAL_NAME } from "../../../shared/ide/new-craft/answers.ts";
import { newCraft } from "../../../shared/ide/new-craft/new-craft.ts";
import { allQuestions, type FoundFiles } from "../../../shared/ide/new-craft/questions.ts";
import { readScriptFile } from "../node/disk.ts";
import { readArguments } from "./arguments.ts";
import { askAnswers } from "./ask-answers.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";
import { openPlace, readJson } from "./new-place.ts";
import { writeOut } from "./write-out.ts";

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

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    answers: { type: "string" },
    out: { type: "string" },
    force: { type: "boolean" },
    questions: { type: "boolean" },
  });
  if (given.paths.length > 0)
    throw new CannotRun(`“${given.paths[0]}” is one word too many: --out FILE says where the craft goes`);
  const out = given.text("out");
  if (given.has("force") && out === undefined) throw new CannotRun("--force belongs to --out: it replaces that file");
  const place = await openPlace(out, io);
  const { file } = place;
  if (given.has("questions")) {
    io.out(`${JSON.stringify(questionsForPrograms(place.found), null, 2)}\n`);
    return 0;
  }
  // Checked before the questions, so that no answers are lost.
  if (out !== undefined && !given.has("force") && readScriptFile(file).kind !== "missing")
    throw new CannotRun(`${out} is there already: choose another name, or --force replaces it`);
  const { answers, found, workspace } = await answersFrom(given.text("answers"), place, out, io);
  const { text, leftOut } = newCraft(answers, found, workspace, file);
  for (const { path, why } of leftOut) io.error(`${oneLine(`${path} is left out: ${why}`)}\n`);
  if (out === undefined) io.out(text);
  else {
    writeOut(out, text, given.has("force") ? "replace" : "keep", io);
    if (!given.has("answers")) io.error(`\n${oneLine(out)} is written\n`);
  }
  return 0;
}

type Place = Awaited<ReturnType<typeof openPlace>>;

/** The answers, and the place as it is by then: a handset may have been made on the way. */
async function answersFrom(path: string | undefined, place: Place, out: string | undefined, io: Io) {
  const { found, workspace } = place;
  if (path === undefined) {
    if (!io.converse)
      throw new CannotRun(
        "nobody is there to answer, since standard input is no terminal: --answers FILE takes the answers, and --questions shows what there is to answer",
      );
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
