/** “New handset…”: its controls one by one, as steps of one quick input, and the script that results. */
import { commands, type Uri, window, workspace } from "vscode";
import type { Answers } from "../../shared/protocol/new-craft.ts";
import {
  type HandsetQuestion,
  NEW_HANDSET_REQUEST,
  type NewHandsetParams,
  type NewHandsetResult,
} from "../../shared/protocol/new-handset.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { askChoice, askText, BACK, freePath, openScript, type Step, saveScript } from "./ask-steps.ts";

const TITLE = "New handset";

type Request = (answers: Answers) => Promise<NewHandsetResult | null>;

/** Asks the questions and opens the resulting script; does nothing if the pilot cancels. */
export async function askNewHandset(ask: Ask): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri ?? null;
  const made = await makeHandset(requestFor(ask, folder));
  if (made === undefined || made === BACK) return;
  const unsaved = "a craft can use it once it is saved there";
  await openScript({ ...made, title: TITLE, unsaved, what: "handset" }, folder);
  const newCraft = "New Craft…";
  if ((await window.showInformationMessage(made.next.join(" "), newCraft)) === newCraft)
    await commands.executeCommand("fettle.newCraft");
}

/**
 * Makes a handset in the middle of another conversation, and saves it in the folder: its path there, and the order of
 * its sticks where that is known. BACK where the pilot went back over the first question.
 */
export async function makeHandsetFor(
  ask: Ask,
  folder: Uri,
): Promise<{ readonly path: string; readonly order: string | null } | typeof BACK | undefined> {
  const made = await makeHandset(requestFor(ask, folder), "back");
  if (made === undefined || made === BACK) return made;
  const path = await freePath(folder, made.path);
  const uri = await saveScript({ text: made.text, what: "handset" }, folder, path);
  if (!uri) return undefined;
  // The server is told of the file by its document: what watches the disk may be later.
  await workspace.openTextDocument(uri);
  return { path, order: made.order };
}

function requestFor(ask: Ask, folder: Uri | null): Request {
  return (answers) => {
    const params: NewHandsetParams = { folder: folder && addressOf(folder), answers };
    return ask<NewHandsetResult | null>(NEW_HANDSET_REQUEST, params);
  };
}

interface Made extends NewHandsetResult {
  readonly text: string;
}

async function makeHandset(
  request: Request,
  first: "back" | "first" = "first",
): Promise<Made | typeof BACK | undefined> {
  /** In the order in which they were given: going back removes the last one. */
  const given: (readonly [id: string, answer: string | readonly string[]])[] = [];
  /** Answers that were removed, to be shown again. */
  const before = new Map<string, string | readonly string[]>();
  let wrong: string | undefined;
  for (;;) {
    const state = await request(Object.fromEntries(given));
    if (!state) {
      window.showErrorMessage("The handset could not be made, which is a fault of this tool; its log says more.");
      return undefined;
    }
    if (given.length === 0 && wrong === undefined)
      for (const { path, why } of state.notOffered) window.showWarningMessage(`${path} is not offered: ${why}`);
    if (state.problem !== null && given.length > 0) {
      wrong = state.problem.message;
      given.pop();
      continue;
    }
    const { question, text } = state;
    if (!question) return text === null ? undefined : { ...state, text };
    const way = given.length > 0 ? "back" : first;
    const step = await askOne(question, titleWith(state.controls), way, before.get(question.id), wrong);
    wrong = undefined;
    if (step === undefined) return undefined;
    if (typeof step !== "symbol") {
      before.set(question.id, step);
      given.push([question.id, step]);
    } else if (given.pop() === undefined) return BACK;
  }
}

/** The last controls are enough to know where one is. */
const MOST_NAMED = 3;

function titleWith(controls: readonly string[]): string {
  if (controls.length === 0) return TITLE;
  const more = controls.length > MOST_NAMED ? "… " : "";
  return `${TITLE}: ${more}${controls.slice(-MOST_NAMED).join(", ")}`;
}

function askOne(
  { prompt, choices, many, usual, typed }: HandsetQuestion,
  title: string,
  way: "back" | "first",
  before: string | readonly string[] | undefined,
  wrong: string | undefined,
): Promise<Step> {
  const look = { title, prompt, way, wrong };
  // A list of one is no choice: its answer stands in the box, to be taken or written over.
  if (typed !== null && choices.length < 2)
    return askText(look, usual ?? "", typeof before === "string" ? before : (usual ?? ""));
  const all = choices.map(({ word }) => word);
  const selected = before === undefined ? (many ? all : [usual]) : typeof before === "string" ? [before] : before;
  return askChoice(look, choices, { many, typed, selected });
}
