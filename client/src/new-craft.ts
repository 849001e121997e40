/** “New craft…”: questions as steps of one quick pick, and the script that results from the answers. */
import { type InputBox, QuickInputButtons, type QuickPick, type QuickPickItem, Uri, window, workspace } from "vscode";
import {
  type Answers,
  isAsked,
  NEW_CRAFT_REQUEST,
  type NewCraftParams,
  type NewCraftResult,
  type Question,
} from "../../shared/protocol/new-craft.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./pages.ts";

const TITLE = "New craft";

interface Item extends QuickPickItem {
  readonly word: string;
}

/** The result of a step: an answer, BACK for the previous step, or undefined if the pilot cancelled. */
type Step = string | readonly string[] | typeof BACK | undefined;
const BACK = Symbol("back");

/** Asks the questions and opens the resulting script; does nothing if the pilot cancels. */
export async function askNewCraft(ask: Ask): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri ?? null;
  const request = (answers: Answers) => {
    const params: NewCraftParams = { folder: folder && addressOf(folder), answers };
    return ask<NewCraftResult | null>(NEW_CRAFT_REQUEST, params);
  };
  const answers = await askAll(request);
  if (!answers) return;
  const made = await request(answers);
  if (!made?.text) {
    window.showErrorMessage(
      made?.problem ?? "The craft could not be made, which is a fault of this tool; its log says more.",
    );
    return;
  }
  for (const { path, why } of made.leftOut) window.showWarningMessage(`${path} is left out: ${why}`);
  await openScript(made.text, folder, made.path);
}

/** The answers to the name and the questions, with a way back; undefined if the pilot cancelled. */
async function askAll(request: (answers: Answers) => Promise<NewCraftResult | null>): Promise<Answers | undefined> {
  /** In the order in which they were given: going back removes the last one. */
  const given: (readonly [id: string, answer: string | readonly string[]])[] = [];
  /** Answers that were removed by going back, to be preselected. */
  const before = new Map<string, string | readonly string[]>();
  let told = false;
  /** Why the last answer is invalid. Every choice of a list is valid, so this is about the name. */
  let wrong: string | undefined;
  for (;;) {
    const state = await request(Object.fromEntries(given));
    if (!state) return Object.fromEntries(given);
    if (!told)
      for (const { path, why } of state.notOffered) window.showWarningMessage(`${path} is not offered: ${why}`);
    told = true;
    if (state.problem !== null && given.length > 0) {
      wrong = state.problem;
      given.pop();
      continue;
    }
    const ids = new Set(given.map(([id]) => id));
    const asked = state.questions.filter(isAsked);
    const question = asked.find(({ id }) => !ids.has(id));
    if (ids.has("name") && !question) return Object.fromEntries(given);
    const id = ids.has("name") && question ? question.id : "name";
    const place = asked.findIndex((each) => each.id === id) + 1;
    const step =
      id === "name"
        ? await askName(state.name, before.get(id), wrong)
        : await pick(question!, { place, of: asked.length }, before.get(id));
    if (step === undefined) return undefined;
    wrong = undefined;
    if (typeof step !== "symbol") {
      before.set(id, step);
      given.push([id, step]);
    } else given.pop();
  }
}

function askName({ prompt, usual }: NewCraftResult["name"], before: unknown, wrong?: string): Promise<Step> {
  const box = window.createInputBox();
  box.title = TITLE;
  box.prompt = prompt;
  box.value = typeof before === "string" ? before : "";
  box.placeholder = usual;
  box.validationMessage = wrong;
  box.onDidChangeValue(() => {
    box.validationMessage = undefined;
  });
  return shown(box, () => box.value.trim() || usual);
}

function pick(question: Question, at: { place: number; of: number }, before: unknown): Promise<Step> {
  const box = window.createQuickPick<Item>();
  box.title = TITLE;
  box.step = at.place;
  box.totalSteps = at.of;
  box.placeholder = question.prompt;
  box.canSelectMany = question.many;
  box.matchOnDescription = true;
  box.buttons = [QuickInputButtons.Back];
  box.items = question.choices.map(({ word, label, help }) => ({ word, label, description: help }));
  const preselected = Array.isArray(before) ? before : [before ?? question.usual];
  const chosen = box.items.filter(({ word }) => preselected.includes(word));
  box.activeItems = chosen.slice(0, 1);
  if (question.many) box.selectedItems = chosen;
  return shown(box, () => {
    const words = box.selectedItems.map(({ word }) => word);
    return question.many ? words : words[0];
  });
}

/** Shows an input until it is accepted, cancelled, or the back button is pressed. */
function shown(box: QuickPick<Item> | InputBox, answer: () => Step): Promise<Step> {
  return new Promise<Step>((resolve) => {
    box.ignoreFocusOut = true;
    box.onDidAccept(() => {
      const step = answer();
      if (step !== undefined) resolve(step);
    });
    box.onDidTriggerButton(() => resolve(BACK));
    box.onDidHide(() => resolve(undefined));
    box.show();
  }).finally(() => box.dispose());
}

/** Opens the script: saved in the folder if there is one and the pilot chooses so, else as an untitled document. */
async function openScript(text: string, folder: Uri | null, path: string): Promise<void> {
  const free = folder && (await freePath(folder, path));
  if (folder && free) {
    const keep = { label: `Save as ${free}`, description: "in this folder" };
    const open = {
      label: "Open without saving",
      description: "its handset and its layers are found once it is saved there",
    };
    const chosen = await window.showQuickPick([keep, open], {
      title: TITLE,
      placeHolder: "Where does it go?",
      ignoreFocusOut: true,
    });
    if (chosen === undefined) return;
    if (chosen === keep) {
      const uri = Uri.joinPath(folder, free);
      try {
        await workspace.fs.writeFile(uri, new TextEncoder().encode(text));
        await window.showTextDocument(uri);
        return;
      } catch (error) {
        window.showWarningMessage(
          `${free} could not be saved, so the craft is open without a file: ${error instanceof Error ? error.message : error}`,
        );
      }
    }
  }
  await window.showTextDocument(await workspace.openTextDocument({ language: "fettle", content: text }));
}

/** The path, or the first free numbered variant of it: existing files are never overwritten. */
async function freePath(folder: Uri, path: string): Promise<string> {
  for (let number = 1; ; number++) {
    const free = number === 1 ? path : path.replace(/\.fettle$/, `-${number}.fettle`);
    try {
      await workspace.fs.stat(Uri.joinPath(folder, free));
    } catch {
      return free;
    }
  }
}
