/** Handsets made from answers among files held in memory, and what is found in them. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { findFiles } from "../../../shared/ide/new-craft/new-craft.ts";
import { flatAnswers } from "../../../shared/ide/new-handset/answers.ts";
import { newHandset } from "../../../shared/ide/new-handset/new-handset.ts";
import { askNext } from "../../../shared/ide/new-handset/questions.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { Answers } from "../../../shared/protocol/new-craft.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const core = makeCore(makeCatalogue());
export const NEW = "/shed/handsets/new.fettle";

export const WHEEL = `handset "Wheel"

transmitter
  band        2.4 GHz
  power       100 mW
  stick-mode  2

controls
  # arms, and nothing else
  TL  switch  ch5  up 1000 us  down 2000 us  lies left shoulder
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us  # the craft's attitude
  KN  dial    ch9  2000 us to 1000 us  lies middle
`;

export function workspaceOf(files: Readonly<Record<string, string>>) {
  return core.at(memoryFiles(Object.fromEntries(Object.entries(files).map(([path, text]) => [`/shed/${path}`, text]))));
}

/** The handset that answers give, as JSON would hold them; or the problem with them. */
export function made(given: unknown, files: Readonly<Record<string, string>> = { "handsets/wheel.fettle": WHEEL }) {
  const workspace = workspaceOf(files);
  const found = findFiles(workspace, "/shed");
  const flat = flatAnswers(given);
  if (flat.kind === "problem") return { problem: flat.problem, text: "", findings: [], next: [] };
  const asked = askNext(found, flat.answers, workspace, "complete");
  if (asked.problem)
    return { problem: `${asked.problem.id}: ${asked.problem.message}`, text: "", findings: [], next: [] };
  const { text, next } = newHandset(asked.draft, workspace, NEW);
  const after = workspaceOf({ ...files, "handsets/new.fettle": text });
  return {
    problem: null,
    text,
    findings: findingsOf(after, NEW).map(({ code, message }) => `${code}: ${message}`),
    next,
  };
}

/** What is asked after these answers. */
export function askedNext(answers: Answers, files: Readonly<Record<string, string>>) {
  const workspace = workspaceOf(files);
  return askNext(findFiles(workspace, "/shed"), answers, workspace, "ask");
}

/** What is found in the handset that these answers give. */
export function madeFrom(answers: Answers, files: Readonly<Record<string, string>>): string[] {
  const { text } = newHandset(askedNext(answers, files).draft, workspaceOf(files), NEW);
  const after = workspaceOf({ ...files, "handsets/new.fettle": text });
  return findingsOf(after, NEW).map(
    ({ code, message, range }) => `${text.split("\n")[range.start.line]}: ${code} ${message}`,
  );
}
