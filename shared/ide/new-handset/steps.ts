/** Walks through questions with the answers so far. */
import type { Answers, Choice } from "../../protocol/new-craft.ts";
import type { HandsetQuestion } from "../../protocol/new-handset.ts";
import { choiceFor } from "../new-craft/choices.ts";
import type { Read } from "./parts.ts";

/** `ask` stops at the first question without an answer; `complete` takes the usual answer, and ends with the last control. */
export type AskMode = "ask" | "complete";

/** Where the walk stopped: at a question, or at an answer that is wrong; at neither where all is answered. */
export interface Stopped {
  readonly question: HandsetQuestion | null;
  readonly problem: { readonly id: string; readonly message: string } | null;
}

/** Walks through questions: of each the answer, or null once one stands open or an answer is wrong. */
export interface Steps {
  choice(question: Omit<HandsetQuestion, "typed" | "many">): string | null;
  many(question: Omit<HandsetQuestion, "typed" | "many" | "usual">): readonly string[] | null;
  text<T>(
    question: Omit<HandsetQuestion, "many" | "choices"> & { choices?: readonly Choice[] },
    read: (text: string) => Read<T>,
  ): T | null;
  /** True while no question stands open. */
  going(): boolean;
  given(id: string): boolean;
  stopped(): Stopped;
}

/** Steps over these answers. */
export function makeSteps(answers: Answers, mode: AskMode): Steps {
  let question: HandsetQuestion | null = null;
  let problem: Stopped["problem"] = null;
  const going = () => question === null && problem === null;
  const refuse = (id: string, message: string): null => {
    problem = { id, message };
    return null;
  };
  /** The answer, or the usual one; undefined where the walk stops. */
  const answerTo = (asked: HandsetQuestion): string | readonly string[] | undefined => {
    if (!going()) return undefined;
    const answer = answers[asked.id];
    if (answer !== undefined) return answer;
    if (mode === "complete") return asked.many ? asked.choices.map(({ word }) => word) : (asked.usual ?? undefined);
    question = asked;
    return undefined;
  };
  const wrong = ({ id, choices, typed }: HandsetQuestion, said: string) => {
    const own =
      typed === null || choices.some(({ word }) => word === typed) ? "" : `, or one of your own, as in ${typed}`;
    return refuse(id, `“${said}” is no answer: one of ${choices.map(({ word }) => word).join(", ")}${own}.`);
  };
  return {
    going,
    given: (id) => answers[id] !== undefined,
    stopped: () => ({ question, problem }),
    choice(asked) {
      const whole = { ...asked, many: false, typed: null };
      const said = answerTo(whole);
      if (said === undefined) return null;
      const found = typeof said === "string" ? choiceFor(asked.choices, said) : undefined;
      return found ? found.word : wrong(whole, String(said));
    },
    many(asked) {
      const whole = { ...asked, many: true, typed: null, usual: null };
      const said = answerTo(whole);
      if (said === undefined) return null;
      const words: string[] = [];
      for (const each of typeof said === "string" ? [said] : said) {
        const found = choiceFor(asked.choices, each);
        if (!found) return wrong(whole, each);
        words.push(found.word);
      }
      return words;
    },
    text(asked, read) {
      const whole = { choices: [], ...asked, many: false };
      const said = answerTo(whole);
      if (said === undefined) return null;
      const text = String(said);
      const understood = read(choiceFor(whole.choices, text)?.word ?? text);
      if ("value" in understood) return understood.value;
      return understood.problem === "" ? wrong(whole, text) : refuse(asked.id, understood.problem);
    },
  };
}
