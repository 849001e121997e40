/** “New craft…”: questions as steps of one quick pick, and the script that results from the answers. */
import { type Uri, workspace } from "vscode";
import {
  type Answers,
  isAsked,
  NEW_CRAFT_REQUEST,
  NEW_HANDSET_WORD,
  type NewCraftParams,
  type NewCraftResult,
} from "../../shared/protocol/new-craft.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { askChoice, askText, BACK, openScript, type StepLook } from "./ask-steps.ts";
import { type MadeHandset, makeHandsetFor } from "./new-handset.ts";
import { tellError, tellWarning } from "./shown-window.ts";

const TITLE = "New craft";

/** Answers that were removed by going back, or left by Escape: they are shown again, until a craft comes of them. */
const left = new Map<string, string | readonly string[]>();

/** The order in which a handset sends the sticks, by the path of one that was made in this session. */
const orders = new Map<unknown, string | null>();

/** Asks the questions and opens the resulting script; does nothing if the pilot cancels. */
export async function askNewCraft(ask: Ask, handset?: MadeHandset): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri ?? null;
  const request = (answers: Answers) => {
    const params: NewCraftParams = { folder: folder && addressOf(folder), answers };
    return ask<NewCraftResult | null>(NEW_CRAFT_REQUEST, params);
  };
  const answers = await askAll(request, ask, folder, handset);
  if (!answers) return;
  const made = await request(answers);
  if (!made?.text) {
    tellError(made?.problem ?? "The craft could not be made, which is a fault of this tool; its log says more.");
    return;
  }
  for (const { path, why } of made.leftOut) tellWarning(`${path} is left out: ${why}`);
  const unsaved = "its handset and its layers are found once it is saved there";
  const opened = await openScript({ text: made.text, title: TITLE, path: made.path, unsaved, what: "craft" }, folder);
  if (opened) left.clear();
}

/** The answers to the name and the questions, with a way back; undefined if the pilot cancelled. */
async function askAll(
  request: (answers: Answers) => Promise<NewCraftResult | null>,
  ask: Ask,
  folder: Uri | null,
  handset: MadeHandset | undefined,
): Promise<Answers | undefined> {
  /** In the order in which they were given: going back removes the last one. */
  const given: (readonly [id: string, answer: string | readonly string[]])[] = [];
  const before = left;
  if (handset) {
    before.set("link", handset.path);
    orders.set(handset.path, handset.order);
  }
  const answers = (): Answers => {
    const said = Object.fromEntries(given);
    const order = orders.get(said.link);
    return order ? { ...said, order } : said;
  };
  let told = false;
  /** Why the last answer is invalid. Every choice of a list is valid, so this is about the name. */
  let wrong: string | undefined;
  for (;;) {
    const state = await request(answers());
    if (!state) return answers();
    if (!told) for (const { path, why } of state.notOffered) tellWarning(`${path} is not offered: ${why}`);
    told = true;
    if (state.problem !== null && given.length > 0) {
      wrong = state.problem;
      given.pop();
      continue;
    }
    const ids = new Set(given.map(([id]) => id));
    const asked = state.questions.filter(isAsked);
    const question = asked.find(({ id }) => !ids.has(id));
    if (ids.has("name") && !question) return answers();
    const id = ids.has("name") && question ? question.id : "name";
    const place = asked.findIndex((each) => each.id === id) + 1;
    const { name } = state;
    const prompt = id === "name" ? name.prompt : question!.prompt;
    const look: StepLook = {
      title: TITLE,
      prompt,
      wrong,
      way: id === "name" ? "first" : "back",
      ...(place > 0 && { at: { place, of: asked.length } }),
    };
    const earlier = before.get(id);
    const step =
      id === "name"
        ? await askText(look, name.usual, typeof earlier === "string" ? earlier : "")
        : await askChoice(look, question!.choices, {
            many: question!.many,
            typed: null,
            // What was answered before may not be offered any more, as packs are by the size of the propellers.
            selected: Array.isArray(earlier)
              ? earlier
              : [question!.choices.some(({ word }) => word === earlier) ? earlier : question!.usual],
          });
    if (step === undefined) return undefined;
    wrong = undefined;
    if (step === NEW_HANDSET_WORD && folder) {
      const handset = await makeHandsetFor(ask, folder);
      if (handset === undefined) return undefined;
      if (handset === BACK) continue;
      const { path, order } = handset;
      before.set(id, path);
      given.push([id, path]);
      orders.set(path, order);
      continue;
    }
    if (typeof step !== "symbol") {
      before.set(id, step);
      given.push([id, step]);
    } else given.pop();
  }
}
