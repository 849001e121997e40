/** Reads answers from a file or a person; errors are one sentence. */
import { similarNames } from "../../model/similar-names.ts";
import type { Answers, Choice, Question } from "../../protocol/new-craft.ts";
import { allQuestions, type FoundFiles, questionsFor } from "./questions.ts";

export const NAME_PROMPT = "What is it called?";
export const USUAL_NAME = "New craft";
/** In characters; a longer name fits on no OSD. */
const LONGEST_NAME = 40;

export type AnswersRead =
  | { readonly kind: "answers"; readonly answers: Answers }
  | { readonly kind: "problem"; readonly problem: string };

/** All answers, with the usual one where none is given; or the problem with the first that is wrong. */
export function readAnswers(found: FoundFiles, given: unknown): AnswersRead {
  if (typeof given !== "object" || given === null || Array.isArray(given))
    return problem('the answers are one JSON object, as in {"name": "Jug", "size": "5-inch"}');
  const givenById = given as Readonly<Record<string, unknown>>;
  const ids = ["name", ...allQuestions(found).map(({ id }) => id)];
  for (const key of Object.keys(givenById)) {
    if (ids.includes(key)) continue;
    const [near] = similarNames(key, ids, 1);
    return problem(`no question is called “${key}”: ${near ? `did you mean ${near}?` : `there are ${ids.join(", ")}`}`);
  }
  const name = readName(givenById.name ?? USUAL_NAME);
  if (name.kind === "problem") return name;
  const answers: Record<string, string | readonly string[]> = { name: name.name };
  for (const { id } of allQuestions(found)) {
    const question = questionsFor(found, answers).find((each) => each.id === id)!;
    const answer =
      givenById[id] === undefined ? usualAnswer(question) : readAnswer(question, givenById[id], found, answers);
    if (typeof answer === "object" && "problem" in answer) return { kind: "problem", ...answer };
    answers[id] = answer;
  }
  return { kind: "answers", answers };
}

/** A craft's name, trimmed; or the problem with it. */
export function readName(given: unknown): { kind: "name"; name: string } | { kind: "problem"; problem: string } {
  if (typeof given !== "string") return problem("name: a craft's name is text in quotes");
  const name = given.trim();
  if (name === "") return problem("name: a craft needs a name");
  if ([...name].length > LONGEST_NAME) return problem(`name: at most ${LONGEST_NAME} characters`);
  if (/[\p{Cc}\u2028\u2029\ufeff]|\p{Cs}/u.test(name))
    return problem("name: one line of plain text, without control characters");
  return { kind: "name", name };
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

/** A word in lower case, without a leading `./` and without blanks, commas, underscores and hyphens. */
const normalized = (text: string) =>
  text
    .toLowerCase()
    .replace(/^\.\//, "")
    .replace(/[\s,_-]+/g, "");

/**
 * The choice of that word or label. The first part of a label such as “Wheel, 2.4 GHz” is enough, and so is an
 * unambiguous beginning.
 */
function choiceFor(choices: readonly Choice[], text: string): Choice | undefined {
  const sole = (fit: readonly Choice[]) => (fit.length === 1 ? fit[0] : undefined);
  const expected = normalized(text);
  const only = (key: (choice: Choice) => string) =>
    sole(choices.filter((choice) => normalized(key(choice)) === expected));
  const begins = (label: string) => expected !== "" && normalized(label).startsWith(expected);
  return (
    choices.find(({ word }) => word === text) ??
    only(({ word }) => word) ??
    only(({ label }) => label) ??
    only(({ label }) => label.split(",")[0]!) ??
    sole(choices.filter(({ word, label }) => begins(word) || begins(label)))
  );
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
