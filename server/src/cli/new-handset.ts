/** `fettle new handset`: a handset from its controls one by one. */
import { flatAnswers } from "../../../shared/ide/new-handset/answers.ts";
import { newHandset } from "../../../shared/ide/new-handset/new-handset.ts";
import { askNext, handsetQuestions } from "../../../shared/ide/new-handset/questions.ts";
import { readScriptFile } from "../node/disk.ts";
import { readArguments } from "./arguments.ts";
import { askHandset } from "./ask-handset.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";
import { openPlace, readJson } from "./new-place.ts";
import { startTalk } from "./talk.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle new handset [--out FILE] [--force]
       fettle new handset --answers FILE [--out FILE] [--force]
       fettle new handset --questions

Writes the pilot's handset: its module, and its controls one by one, each with its
channel, its positions and their pulses, and where the hand finds it. At a terminal the
questions are asked, and Enter takes the usual answer. Handsets of the repository or the
folder can be copied or used.

  --answers FILE  the answers as JSON; “-” reads them from standard input. What is not
                  answered has the usual answer:
                  {"name": "Wheel", "band": "2.4 GHz", "power": "100 mW",
                   "stick-mode": 2, "order": "roll pitch throttle yaw",
                   "travel": "990 us to 2010 us",
                   "as-on": "copy handsets/old.fettle", "keep": ["TL"],
                   "controls": [
                     {"name": "TL", "kind": "switch", "channel": 5,
                      "positions": "up, mid, down", "rest": "up",
                      "lies": "left shoulder"},
                     {"name": "KN", "kind": "dial", "range": "2000 us to 1000 us"}]}
                  kind: switch, selector, button, latched-button or dial; positions also
                  as "up 1000 us, down 2000 us", as their number, or as
                  {"up": 1000, "down": 2000}; as-on: none, copy FILE, use FILE
  --out FILE      where the handset goes, in place of standard output
  --force         replace FILE if it is there already
  --questions     the questions with their choices, as JSON: those of the handset, and
                  those of each control

Exit status: 0 the handset is written, 2 it cannot be.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    answers: { type: "string" },
    out: { type: "string" },
    force: { type: "boolean" },
    questions: { type: "boolean" },
  });
  if (given.paths.length > 0)
    throw new CannotRun(`“${given.paths[0]}” is one word too many: --out FILE says where the handset goes`);
  const out = given.text("out");
  if (given.has("force") && out === undefined) throw new CannotRun("--force belongs to --out: it replaces that file");
  const place = await openPlace(out, io);
  if (given.has("questions")) {
    io.out(`${JSON.stringify(handsetQuestions(place.found, place.workspace), null, 2)}\n`);
    return 0;
  }
  // Checked before the questions, so that no answers are lost.
  if (out !== undefined && !given.has("force") && readScriptFile(place.file).kind !== "missing")
    throw new CannotRun(`${out} is there already: choose another name, or --force replaces it`);
  const draft = await draftFrom(given.text("answers"), place, io);
  const { text, next } = newHandset(draft, place.workspace, place.file);
  if (out === undefined) io.out(text);
  else {
    writeOut(out, text, given.has("force") ? "replace" : "keep", io);
    if (!given.has("answers")) io.error(`\n${oneLine(out)} is written\n`);
  }
  if (!given.has("answers")) for (const each of next) io.error(`${each}\n`);
  return 0;
}

async function draftFrom(path: string | undefined, place: Awaited<ReturnType<typeof openPlace>>, io: Io) {
  const { found, workspace } = place;
  if (path === undefined) {
    if (!io.converse)
      throw new CannotRun(
        "nobody is there to answer, since standard input is no terminal: --answers FILE takes the answers, and --questions shows what there is to answer",
      );
    const talk = startTalk(io, "the answers ended before the questions did: nothing is written");
    try {
      return await askHandset(place, talk.ask, io);
    } finally {
      talk.end();
    }
  }
  const flat = flatAnswers(await readJson(path, io));
  if (flat.kind === "problem") throw new CannotRun(flat.problem);
  const { draft, problem } = askNext(found, flat.answers, workspace, "complete");
  if (problem) throw new CannotRun(`${problem.id}: ${problem.message}`);
  return draft;
}

export const command: Command = { help, run };
