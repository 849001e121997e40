/** Questions as steps of one quick input, with a way back; and new scripts that they lead to. */
import {
  commands,
  type InputBox,
  QuickInputButtons,
  type QuickPick,
  type QuickPickItem,
  Uri,
  window,
  workspace,
} from "vscode";
import type { Choice } from "../../shared/protocol/new-craft.ts";
import { makeField, makeList, pickOne, tellWarning } from "./shown-window.ts";

/** The result of a step: an answer, BACK for the previous step, or undefined if the pilot cancelled. */
export type Step = string | readonly string[] | typeof BACK | undefined;
export const BACK = Symbol("back");

interface Item extends QuickPickItem {
  readonly word: string;
}

/** What a step shows besides its choices. */
export interface StepLook {
  readonly title: string;
  readonly prompt: string;
  /** Its place among the steps, where their number is known. */
  readonly at?: { readonly place: number; readonly of: number };
  /** Why the last answer is wrong. */
  readonly wrong?: string | undefined;
  /** Whether there is a step to go back to. */
  readonly way: "back" | "first";
}

/** Asks for a text; an empty one counts as the usual answer. */
export function askText(look: StepLook, usual: string, value: string): Promise<Step> {
  const box = makeField();
  dress(box, look);
  box.prompt = look.prompt;
  box.value = value;
  box.placeholder = usual;
  box.validationMessage = look.wrong;
  box.onDidChangeValue(() => {
    box.validationMessage = undefined;
  });
  return shown(box, () => box.value.trim() || usual);
}

/** Asks for one choice, or for any number of them; `typed` is an example of an answer of one's own, where that counts. */
export function askChoice(
  look: StepLook,
  choices: readonly Choice[],
  { many, typed, selected }: { many: boolean; typed: string | null; selected: readonly unknown[] },
): Promise<Step> {
  const box = makeList<Item>();
  dress(box, look);
  const example = typed === null ? "" : ` Or type your own, as in ${typed}`;
  box.placeholder = look.wrong ?? `${look.prompt}${example}`;
  box.canSelectMany = many;
  box.matchOnDescription = true;
  const listed = choices.map(({ word, label, help }): Item => ({ word, label, description: help }));
  box.items = listed;
  const chosen = listed.filter(({ word }) => selected.includes(word));
  box.activeItems = chosen.slice(0, 1);
  if (many) box.selectedItems = chosen;
  if (typed !== null)
    box.onDidChangeValue((value) => {
      const own = value.trim();
      const asTyped: Item = { word: own, label: own, description: "as typed", alwaysShow: true };
      box.items = own === "" || listed.some(({ label }) => label === own) ? listed : [...listed, asTyped];
    });
  return shown(box, () => {
    const words = box.selectedItems.map(({ word }) => word);
    return many ? words : words[0];
  });
}

function dress(box: QuickPick<Item> | InputBox, { title, at, way }: StepLook): void {
  box.title = title;
  box.step = at?.place;
  box.totalSteps = at?.of;
  if (way === "back") box.buttons = [QuickInputButtons.Back];
}

/**
 * The input that was shown last. It stays, answered, until the next one takes its place: hidden at once, it would give
 * the keyboard back between two questions, and the key's way up to what is behind it.
 */
let last: QuickPick<Item> | InputBox | undefined;

function endAsking(): void {
  last?.dispose();
  last = undefined;
}

/** Shows an input until it is accepted, cancelled, or the back button is pressed. */
function shown(box: QuickPick<Item> | InputBox, answer: () => Step): Promise<Step> {
  return new Promise<Step>((resolve) => {
    box.ignoreFocusOut = true;
    box.onDidAccept(() => {
      const step = answer();
      if (step === undefined) return;
      box.busy = true;
      resolve(step);
    });
    box.onDidTriggerButton(() => resolve(BACK));
    box.onDidHide(() => resolve(undefined));
    box.show();
    endAsking();
    last = box;
  });
}

/** How long a walkthrough may take to hold the keyboard again after a key has pressed its button: its slide, and the key's way up. */
const HELD_AGAIN_MS = 700;

/** Asks questions for a command that `from` has started, and leaves no input behind. */
export async function asking(from: unknown, ask: () => Promise<void>): Promise<void> {
  await keyboardIsFree(from);
  try {
    await ask();
  } finally {
    endAsking();
  }
}

/** Waits until an input keeps the keyboard: a walkthrough, which gives its name to its commands, would take it back. */
async function keyboardIsFree(from: unknown): Promise<void> {
  if (from === "walkthrough") await new Promise((resolve) => setTimeout(resolve, HELD_AGAIN_MS));
}

/** A script that is not kept anywhere yet. */
export interface NewScript {
  readonly text: string;
  /** What the input is about, as its title. */
  readonly title: string;
  /** The proposed path in the folder. */
  readonly path: string;
  /** What comes of a script without a file. */
  readonly unsaved: string;
  readonly what: "craft" | "handset";
  /** What may be done once it is saved, in a few words; not offered where absent. */
  readonly onward?: string;
}

/** Where a new script went. */
export type Opened =
  | { readonly kind: "saved"; readonly path: string; readonly goesOn: boolean }
  | { readonly kind: "untitled" };

/**
 * Opens a script: saved in the folder if there is one and the pilot chooses so, else as an untitled document;
 * undefined if the pilot cancelled.
 */
export async function openScript(script: NewScript, folder: Uri | null): Promise<Opened | undefined> {
  const free = folder && (await freePath(folder, script.path));
  if (folder && free) {
    const description = free === script.path ? "in this folder" : `${script.path} is another script already`;
    const keep = { label: `Save as ${free}`, description };
    const on = { label: `Save, and ${script.onward}`, description: `as ${free}` };
    const open = { label: "Open without saving", description: script.unsaved };
    const chosen = await pickOne([keep, ...(script.onward ? [on] : []), open], {
      title: script.title,
      placeHolder: "Where does it go?",
      ignoreFocusOut: true,
    });
    if (chosen === undefined) return undefined;
    const uri = chosen === open ? undefined : await saveScript(script, folder, free);
    if (uri) {
      await window.showTextDocument(uri, { preview: false });
      return { kind: "saved", path: free, goesOn: chosen === on };
    }
  }
  await openUntitled(script);
  return { kind: "untitled" };
}

/** Opens a script without a file. */
export async function openUntitled({ text, what }: Pick<NewScript, "text" | "what">): Promise<void> {
  endAsking();
  const untitled = await workspace.openTextDocument({ language: "fettle", content: text });
  await window.showTextDocument(untitled, { preview: false });
  tick(what);
}

/** The walkthrough's step is done once there is a script, and not while its questions are asked. */
function tick(what: NewScript["what"]): void {
  void commands.executeCommand("setContext", `fettle.made.${what}`, true);
}

/** Writes a script to a path in the folder; where that fails it says why, and gives nothing. */
export async function saveScript(
  { text, what }: Pick<NewScript, "text" | "what">,
  folder: Uri,
  path: string,
): Promise<Uri | undefined> {
  const uri = Uri.joinPath(folder, path);
  try {
    await workspace.fs.writeFile(uri, new TextEncoder().encode(text));
    tick(what);
    return uri;
  } catch (error) {
    const why = error instanceof Error ? error.message : error;
    tellWarning(`${path} could not be saved, so the ${what} is open without a file: ${why}`);
    return undefined;
  }
}

/** The path, or the first free numbered variant of it: existing files are never overwritten. */
export async function freePath(folder: Uri, path: string): Promise<string> {
  for (let number = 1; ; number++) {
    const free = number === 1 ? path : path.replace(/\.fettle$/, `-${number}.fettle`);
    try {
      await workspace.fs.stat(Uri.joinPath(folder, free));
    } catch {
      return free;
    }
  }
}
