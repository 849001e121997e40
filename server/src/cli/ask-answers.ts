/** The questions of a new craft, asked at a terminal. */

import { NAME_PROMPT, readAnswer, USUAL_NAME } from "../../../shared/ide/new-craft/answers.ts";
import { readName } from "../../../shared/ide/new-craft/choices.ts";
import { allQuestions, type FoundFiles, questionsFor } from "../../../shared/ide/new-craft/questions.ts";
import { type Answers, isAsked, NEW_HANDSET_WORD, type Question } from "../../../shared/protocol/new-craft.ts";
import { makeHandsetOnTheWay } from "./ask-handset.ts";
import { type Io, oneLine } from "./io.ts";
import { openPlace, type Place } from "./new-place.ts";
import { byNumber, listed, startTalk } from "./talk.ts";

type Answer = string | readonly string[];
/**
 * Asks until every question has an answer. At the end of input there is no craft. A handset that is made on the way is
 * written at once, and the place is read anew.
 */
export async function askAnswers(
  place: Place,
  out: string | undefined,
  io: Io,
): Promise<Pick<Place, "found" | "workspace"> & { answers: Answers }> {
  let { workspace } = place;
  let found: FoundFiles = { ...place.found, newHandset: "offered" };
  const talk = startTalk(io, "the answers ended before the questions did: nothing is written");
  try {
    const answers: Record<string, Answer> = { name: await askName(talk.ask, io) };
    for (const { id } of allQuestions(found)) {
      // Which questions there are to ask depends on the answers before.
      const now = questionsFor(found, answers);
      const question = now.find((each) => each.id === id)!;
      const asked = now.filter(isAsked);
      const step = `${asked.indexOf(question) + 1} of ${asked.length}`;
      answers[id] = isAsked(question)
        ? await askOne(question, step, (said) => readAnswer(question, said, found, answers), talk.ask, io)
        : question.many
          ? []
          : question.usual!;
      if (answers[id] !== NEW_HANDSET_WORD) continue;
      const { path, order } = await makeHandsetOnTheWay(place, talk.ask, io);
      const after = await openPlace(out, io);
      ({ workspace } = after);
      found = after.found;
      answers.link = path;
      if (order !== null) answers.order = order;
    }
    return { answers, found, workspace };
  } finally {
    talk.end();
  }
}

async function askName(ask: (prompt: string) => Promise<string>, io: Io): Promise<string> {
  for (;;) {
    const understood = readName((await ask(`${NAME_PROMPT} [${USUAL_NAME}] `)) || USUAL_NAME);
    if (understood.kind === "name") return understood.name;
    io.error(`${oneLine(understood.problem)}\n`);
  }
}

async function askOne(
  question: Question,
  step: string,
  read: (said: unknown) => Answer | { readonly problem: string },
  ask: (prompt: string) => Promise<string>,
  io: Io,
): Promise<Answer> {
  const { many, usual } = question;
  io.error(`\n${step}  ${question.prompt}\n${listed(question)}`);
  const prompt = many ? "Numbers or words, between commas [none] " : `Number or word [${usual}] `;
  for (;;) {
    const said = await ask(prompt);
    if (said === "") return many ? [] : usual!;
    const words = (many ? said.split(/\s*,\s*/) : [said])
      .filter((word) => word !== "")
      .map((word) => byNumber(question, word));
    const answer = read(many ? words : words[0]);
    if (typeof answer === "string" || !("problem" in answer)) {
      io.error(understood(question, said, answer));
      return answer;
    }
    io.error(`${oneLine(answer.problem)}\n`);
  }
}

/** How a number or the beginning of a word was understood, if that differs from what was typed: 5 may be the fifth, or 5 inch. */
function understood({ choices }: Question, said: string, answer: Answer): string {
  const words = typeof answer === "string" ? [answer] : answer;
  if (words.join(", ") === said) return "";
  const labels = words.map((word) => choices.find((each) => each.word === word)!.label);
  return `  → ${oneLine(labels.join("; "))}\n`;
}
