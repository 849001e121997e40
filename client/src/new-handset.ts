/** “New handset…”: its controls one by one, as steps of one quick input, and the script that results. */
import { type Uri, workspace } from "vscode";
import type { Answers } from "../../shared/protocol/new-craft.ts";
import {
  type HandsetQuestion,
  NEW_HANDSET_REQUEST,
  type NewHandsetParams,
  type NewHandsetResult,
} from "../../shared/protocol/new-handset.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { askChoice, askText, BACK, freePath, openScript, openUntitled, type Step, saveScript } from "./ask-steps.ts";
import { tellError, tellInformation, tellWarning } from "./shown-window.ts";

const TITLE = "New handset";

type Request = (answers: Answers) => Promise<NewHandsetResult | null>;

/** A handset that was saved just now: its path in the folder, and the order of its sticks where that is known. */
export interface MadeHandset {
  readonly path: string;
  readonly order: string | null;
}

/**
 * Asks the questions and opens the resulting script; does nothing if the pilot cancels. Where the pilot wants to go on
 * to a craft, `goOn` is called.
 */
export async function askNewHandset(ask: Ask, goOn: (handset: MadeHandset) => Promise<void>): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri ?? null;
  const made = await makeHandset(requestFor(ask, folder));
  if (made === undefined || made === BACK) return;
  const unsaved = "a craft can use it once it is saved there";
  const script = { ...made, title: TITLE, unsaved, what: "handset", onward: "make a craft with it…" } as const;
  const opened = await openScript(script, folder);
  if (!opened) return;
  left.clear();
  if (opened.kind === "untitled") {
    void tellInformation([KEEP_IT, ...made.next].join(" "));
    return;
  }
  const newCraft = "New Craft…";
  const chosen = opened.goesOn ? newCraft : await tellInformation(made.next.join(" "), newCraft);
  if (chosen === newCraft) await goOn({ path: opened.path, order: made.order });
}

const KEEP_IT = "Save it in the folder of your craft, and open that folder: there every craft can use it.";

/**
 * Makes a handset in the middle of another conversation, and saves it in the folder: its path there, and the order of
 * its sticks where that is known. BACK where the pilot went back over the first question, or where it could not be
 * saved: it is then open without a file.
 */
export async function makeHandsetFor(ask: Ask, folder: Uri): Promise<MadeHandset | typeof BACK | undefined> {
  const made = await makeHandset(requestFor(ask, folder), "back");
  if (made === undefined || made === BACK) return made;
  const path = await freePath(folder, made.path);
  const uri = await saveScript({ text: made.text, what: "handset" }, folder, path);
  if (!uri) {
    await openUntitled({ text: made.text, what: "handset" });
    return BACK;
  }
  left.clear();
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

/** Answers that were removed by going back, or left by Escape: they are shown again, until a handset comes of them. */
const left = new Map<string, string | readonly string[]>();

interface Made extends NewHandsetResult {
  readonly text: string;
}

async function makeHandset(
  request: Request,
  first: "back" | "first" = "first",
): Promise<Made | typeof BACK | undefined> {
  /** In the order in which they were given: going back removes the last one. */
  const given: (readonly [id: string, answer: string | readonly string[]])[] = [];
  const before = left;
  let wrong: string | undefined;
  for (;;) {
    const state = await request(Object.fromEntries(given));
    if (!state) {
      tellError("The handset could not be made, which is a fault of this tool; its log says more.");
      return undefined;
    }
    if (given.length === 0 && wrong === undefined)
      for (const { path, why } of state.notOffered) tellWarning(`${path} is not offered: ${why}`);
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
