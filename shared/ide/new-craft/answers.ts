/** Reads answers from a file or a person; errors are one sentence. */
import { similarNames } from "../../model/similar-names.ts";
import type { Answers, Question } from "../../protocol/new-craft.ts";
import { choiceFor, readName } from "./choices.ts";
import { allQuestions, type FoundFiles, questionsFor } from "./questions.ts";

export const NAME_PROMPT = "What is it called?";
export const USUAL_NAME = "New craft";

export type AnswersRead =
  | { readonly kind: "answers"; readonly answers: Answers }
  | { readonly kind: "problem"; readonly problem: string };

/** All answers, with the usual one where none is given; or the problem with the first that is wrong. */
export function readAnswers(found: FoundFiles, given: unknown): AnswersRead {
  if (typeof given !== "object" || given === null || Array.isArray(given))
    return problem('the answers are one JSON object, as in {"name": "Jug", "size": "5-inch"}');
  const givenById = given as Readonly<Record<string, unknown>>;
  const ids = ["name", ...allQuestions(found).map(({ id }) => id), "order"];
  for (const key of Object.keys(givenById)) {
    if (ids.includes(key)) continue;
    const [near] = similarNames(key, ids, 1);
    return problem(`no question is called “${key}”: ${near ? `did you mean ${near}?` : `there are ${ids.join(", ")}`}`);
  }
  const name = readName(givenById.name ?? USUAL_NAME);
  if (name.kind === "problem") return name;
  const answers: Record<string, string | readonly string[]> = { name: name.name };
  if (givenById.order !== undefined) {
    if (!isOrder(givenById.order))
      return problem(`order: the four sticks in the order of their channels, as in ${STICKS.join(" ")}`);
    answers.order = givenById.order;
  }
  for (const { id } of allQuestions(found)) {
    const question = questionsFor(found, answers).find((each) => each.id === id)!;
    const answer =
      givenById[id] === undefined ? usualAnswer(question) : readAnswer(question, givenById[id], found, answers);
    if (typeof answer === "object" && "problem" in answer) return { kind: "problem", ...answer };
    answers[id] = answer;
  }
  return { kind: "answers", answers };
}

const STICKS = ["roll", "pitch", "throttle", "yaw"];

/** Whether an answer names each stick once. It is never asked for: a new handset brings it along. */
function isOrder(given: unknown): given is string {
  return typeof given === "string" && [...STICKS].sort().join() === given.split(" ").sort().join();
}

/**
 * The answer to a question from a word or label, or a list of them or “none” where many are allowed; else the problem.
 */
export function readAnswer(
  question: Question,
  given: unknown,
  found: FoundFiles,
  answers: Answers,
): string | readonly string[] | { readonly problem: string } {
  if (question.many) {
    const items = (Array.isArray(given) ? given : [given]).filter((item) => item !== "none");
    const words: string[] = [];
    for (const item of items) {
      const one = readOne(question, item, found, answers);
      if (typeof one === "object") return one;
      if (!words.includes(one)) words.push(one);
    }
    return words;
  }
  return readOne(question, given, found, answers);
}

function readOne(
  question: Question,
  given: unknown,
  found: FoundFiles,
  answers: Answers,
): string | { problem: string } {
  const word = typeof given === "boolean" ? (given ? "yes" : "no") : given;
  if (typeof word !== "string")
    return { problem: `${question.id}: ${JSON.stringify(given)} is no answer: ${expectedWords(question)}` };
  const choice = choiceFor(question.choices, word);
  if (choice) return choice.word;
  const elsewhere = choiceFor(allQuestions(found).find(({ id }) => id === question.id)!.choices, word)?.onlyWith;
  if (elsewhere) {
    const other = answers[elsewhere.question];
    return {
      problem: `${question.id}: “${word}” does not go with ${elsewhere.question} ${other}: ${expectedWords(question)}`,
    };
  }
  const out = found.notOffered.find(({ path }) => path === word);
  if (out) return { problem: `${question.id}: ${out.path} cannot be used: ${out.why}` };
  return { problem: `${question.id}: “${word}” is no answer: ${expectedWords(question)}` };
}

function expectedWords({ choices, many }: Question): string {
  if (choices.length === 0) return "there is none to choose from here";
  return `${many ? "any" : "one"} of ${choices.map(({ word }) => word).join(", ")}`;
}

function usualAnswer({ many, usual }: Question): string | readonly string[] {
  if (many) return usual === null ? [] : [usual];
  return usual!;
}

function problem(text: string): { kind: "problem"; problem: string } {
  return { kind: "problem", problem: text };
}
