/** `fettle new handset`: a handset from its controls one by one. */
import { flatAnswers } from "../../../shared/ide/new-handset/answers.ts";
import { newHandset } from "../../../shared/ide/new-handset/new-handset.ts";
import { askNext, handsetQuestions } from "../../../shared/ide/new-handset/questions.ts";
import { askHandset } from "./ask-handset.ts";
import { CannotRun, type Command, type Io } from "./io.ts";
import { type Place, readJson } from "./new-place.ts";
import { runNew } from "./new-run.ts";
import { startTalk } from "./talk.ts";

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

const run = (args: readonly string[], io: Io) =>
  runNew(
    {
      what: "handset",
      questions: ({ found, workspace }) => handsetQuestions(found, workspace),
      make: async (path, place) => newHandset(await draftFrom(path, place, io), place.workspace, place.file),
    },
    args,
    io,
  );

async function draftFrom(path: string | undefined, place: Place, io: Io) {
  const { found, workspace } = place;
  if (path === undefined) {
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
