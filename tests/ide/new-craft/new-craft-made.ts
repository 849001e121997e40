/** Craft made from answers among files held in memory, and what is found in them. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { readAnswers } from "../../../shared/ide/new-craft/answers.ts";
import { findFiles, newCraft } from "../../../shared/ide/new-craft/new-craft.ts";
import { allQuestions, type FoundFiles, questionsFor } from "../../../shared/ide/new-craft/questions.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import type { Answers } from "../../../shared/protocol/new-craft.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const core = makeCore(makeCatalogue());
export const NEW = "/shed/craft/jug.fettle";

export const wheel = `handset "Wheel"

transmitter
  band  2.4 GHz

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  FR  switch  ch8  away 1000 us  near 2000 us
  PB  button  ch9  rest 1000 us  held 2000 us
  KN  dial    ch10 1000 us to 2000 us
`;

const workspaces = new WeakMap<object, Workspace>();

/** The workspace of some files; of the same files again, the same. */
export function workspaceOf(files: Readonly<Record<string, string>>): Workspace {
  let workspace = workspaces.get(files);
  if (!workspace) {
    workspace = core.at(
      memoryFiles(Object.fromEntries(Object.entries(files).map(([path, text]) => [`/shed/${path}`, text]))),
    );
    workspaces.set(files, workspace);
  }
  return workspace;
}

/** The craft that answers give in a workspace, and what is found in it. */
export function made(files: Readonly<Record<string, string>>, given: unknown) {
  const workspace = workspaceOf(files);
  const found = findFiles(workspace, "/shed");
  const understood = readAnswers(found, given);
  if (understood.kind === "problem") throw new Error(understood.problem);
  const { text, leftOut } = newCraft(understood.answers, found, workspace, NEW);
  const relative = { ...files, "craft/jug.fettle": text };
  const findings = findingsOf(workspaceOf(relative), NEW).map(
    ({ code, message, range }) => `${text.split("\n")[range.start.line]?.trim()} <- ${code}: ${message}`,
  );
  return { text, leftOut, findings };
}

export function problemOf(files: Readonly<Record<string, string>>, given: unknown): string {
  const understood = readAnswers(findFiles(workspaceOf(files), "/shed"), given);
  return understood.kind === "problem" ? understood.problem : "no problem";
}

/** The answer to each question, by a number that counts along its choices, round and round. */
export function answersBy(found: FoundFiles, numberOf: (id: string) => number): Answers {
  let answers: Answers = { name: "Jug" };
  for (const i of allQuestions(found).keys()) {
    const { id, choices, many } = questionsFor(found, answers)[i]!;
    if (!many) answers = { ...answers, [id]: choices[numberOf(id) % choices.length]!.word };
  }
  return answers;
}

/** A handset with these controls and nothing else. */
export const only = (...lines: string[]) => ({
  "handsets/odd.fettle": `handset "Odd"\n\ncontrols\n${lines.join("\n")}\n`,
});
export const modesOf = (text: string) =>
  text
    .split("\n")
    .filter((line) => /^ {2}[a-z-]+ +when /.test(line))
    .map((line) => line.replace(/ +#.*/, "").trim().replace(/ +/g, " "));
