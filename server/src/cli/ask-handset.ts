/** The questions of a new handset, asked at a terminal. */
import { resolve } from "node:path";
import { handsetPathFor, newHandset } from "../../../shared/ide/new-handset/new-handset.ts";
import { askNext, type HandsetDraft } from "../../../shared/ide/new-handset/questions.ts";
import type { Answers } from "../../../shared/protocol/new-craft.ts";
import type { HandsetQuestion } from "../../../shared/protocol/new-handset.ts";
import { readScriptFile, toPath } from "../node/disk.ts";
import { type Io, oneLine } from "./io.ts";
import type { Place as WholePlace } from "./new-place.ts";
import { byNumber, listed } from "./talk.ts";
import { makeFolderOf, writeOut } from "./write-out.ts";

type Place = Pick<WholePlace, "found" | "workspace">;
type Ask = (prompt: string) => Promise<string>;

/** Asks until there are no more controls. */
export async function askHandset({ found, workspace }: Place, ask: Ask, io: Io): Promise<HandsetDraft> {
  const answers: Record<string, Answers[string]> = {};
  for (;;) {
    const { draft, question } = askNext(found, answers, workspace, "ask");
    if (!question) return draft;
    answers[question.id] = await askOne(question, ask, io, (said) => {
      const { problem } = askNext(found, { ...answers, [question.id]: said }, workspace, "ask");
      return problem?.message ?? null;
    });
  }
}

/** Asks one question until its answer is right; `problemOf` says what is wrong with one. */
async function askOne(
  question: HandsetQuestion,
  ask: Ask,
  io: Io,
  problemOf: (said: Answers[string]) => string | null,
): Promise<Answers[string]> {
  const { choices, many, usual, typed } = question;
  const isShort = choices.length < 2;
  if (!isShort) io.error(`\n${question.prompt}\n${listed(question)}`);
  const own = typed === null || isShort ? "" : `, or as in ${typed}`;
  const prompt = isShort
    ? `${question.prompt} [${usual}] `
    : many
      ? "Numbers or words, between commas [all] "
      : `Number or word${own} [${usual}] `;
  for (;;) {
    const said = await ask(prompt);
    const one = (word: string) => (isShort ? word : byNumber(question, word));
    const answer = many
      ? said === ""
        ? choices.map(({ word }) => word)
        : said
            .split(/\s*,\s*/)
            .filter((word) => word !== "" && word !== "none")
            .map(one)
      : one(said === "" ? usual! : said);
    const problem = problemOf(answer);
    if (problem === null) return answer;
    io.error(`${oneLine(problem)}\n`);
  }
}

/**
 * Makes a handset in the middle of another conversation, and writes it below the working folder: its path there, and the
 * order of its sticks where that is known. What has its name already is never replaced.
 */
export async function makeHandsetOnTheWay(
  place: Place,
  ask: Ask,
  io: Io,
): Promise<{ readonly path: string; readonly order: string | null }> {
  io.error("\nThe handset first.\n");
  const draft = await askHandset(place, ask, io);
  const path = freePath(handsetPathFor(draft.name), io);
  const { text } = newHandset(draft, place.workspace, toPath(resolve(io.folder, path)));
  makeFolderOf(path, io);
  writeOut(path, text, "keep", io);
  io.error(`\n${path} is written; now the craft again.\n`);
  return { path, order: draft.order };
}

/** The path, or the first numbered one that nothing has yet. */
function freePath(path: string, io: Io): string {
  for (let number = 1; ; number++) {
    const free = number === 1 ? path : path.replace(/\.fettle$/, `-${number}.fettle`);
    if (readScriptFile(toPath(resolve(io.folder, free))).kind === "missing") return free;
  }
}
