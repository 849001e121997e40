/**
 * The editor's messages, lists, fields and titles, in which what a script says is text and no more: no character in it turns the
 * text around it or hides, and no words become a link, as the editor makes one of `[words](command:…)` in a message.
 * Whatever tells something to the pilot does so by these.
 */
import {
  commands,
  type InputBox,
  type InputBoxOptions,
  type MessageItem,
  type MessageOptions,
  type OpenDialogOptions,
  type QuickPick,
  type QuickPickItem,
  type QuickPickOptions,
  type SaveDialogOptions,
  type TextDocumentShowOptions,
  type Uri,
  window,
} from "vscode";
import { visibleLine, visibleNotice, withoutIcons } from "../../shared/text/visible-text.ts";

/** What stands below a message, or its buttons, which are told apart by their words: these are ours. */
type More<B> = readonly (B | MessageOptions)[];

/** A message with its buttons; its promise ends with the button that was pressed. */
export function tellInformation<B extends string | MessageItem>(
  message: string,
  ...more: More<B>
): Promise<B | undefined> {
  return told(window.showInformationMessage, message, more);
}

/** The same as a warning. */
export function tellWarning<B extends string | MessageItem>(message: string, ...more: More<B>): Promise<B | undefined> {
  return told(window.showWarningMessage, message, more);
}

/** The same as an error. */
export function tellError<B extends string | MessageItem>(message: string, ...more: More<B>): Promise<B | undefined> {
  return told(window.showErrorMessage, message, more);
}

async function told<B>(show: typeof window.showErrorMessage, message: string, more: More<B>): Promise<B | undefined> {
  const parts = more.map((part) =>
    typeof part === "object" && part !== null && "detail" in part && part.detail !== undefined
      ? { ...part, detail: visibleNotice(part.detail) }
      : part,
  );
  return (await show(visibleNotice(message), ...(parts as string[]))) as B | undefined;
}

/** Asks for one of a list. */
export function pickOne<T extends QuickPickItem>(
  items: readonly T[],
  options: QuickPickOptions & { readonly canPickMany?: false } = {},
): Promise<T | undefined> {
  return Promise.resolve(window.showQuickPick(items.map(shownItem), shownLook(options)));
}

/** Asks for any number of a list. */
export function pickMany<T extends QuickPickItem>(
  items: readonly T[],
  options: QuickPickOptions = {},
): Promise<T[] | undefined> {
  return Promise.resolve(window.showQuickPick(items.map(shownItem), { ...shownLook(options), canPickMany: true }));
}

/** Asks for a text. */
export function askText(options: InputBoxOptions): Promise<string | undefined> {
  return Promise.resolve(window.showInputBox(shownLook(options)));
}

/** Asks for a file that is there. */
export async function askFile(options: OpenDialogOptions): Promise<Uri | undefined> {
  return (await window.showOpenDialog(shownLook(options)))?.[0];
}

/** Asks where a file is to be saved. */
export function askPlace(options: SaveDialogOptions): Promise<Uri | undefined> {
  return Promise.resolve(window.showSaveDialog(shownLook(options)));
}

/** Shows two texts beside each other in the editor's own comparison, in a tab of that title. */
export async function showDiff(left: Uri, right: Uri, title: string, options: TextDocumentShowOptions): Promise<void> {
  await commands.executeCommand("vscode.diff", left, right, visibleLine(title), options);
}

/** A list that is filled as it is used. */
export function makeList<T extends QuickPickItem>(): QuickPick<T> {
  return shownAs(window.createQuickPick<T>());
}

/** A field that is answered as it is used. */
export function makeField(): InputBox {
  return shownAs(window.createInputBox());
}

/** Words that the editor shows with links in them. */
const LOOKS = ["title", "placeHolder", "placeholder", "prompt", "validationMessage"];

function shownLook<T extends object>(options: T): T {
  const shown = Object.entries(options).map(([name, value]) => [
    name,
    LOOKS.includes(name) && typeof value === "string" ? visibleNotice(value) : value,
  ]);
  return Object.fromEntries(shown) as T;
}

/** The item itself, as whoever chooses it is given the same object. */
function shownItem<T extends QuickPickItem>(item: T): T {
  item.label = shownLabel(item.label);
  if (item.description !== undefined) item.description = shownLabel(item.description);
  if (item.detail !== undefined) item.detail = shownLabel(item.detail);
  return item;
}

/** An icon of ours stands beside the words (`iconPath`) and never in them. */
const shownLabel = (text: string) => withoutIcons(visibleLine(text));

/** The input, whose words are shown as above whenever they are set. */
function shownAs<T extends object>(input: T): T {
  return new Proxy(input, {
    get(target, name) {
      const value = Reflect.get(target, name, target);
      return typeof value === "function" ? value.bind(target) : value;
    },
    set(target, name, value) {
      const isItems = name === "items" && Array.isArray(value);
      const shown = isItems ? value.map(shownItem) : shownLook({ [name]: value })[name as never];
      return Reflect.set(target, name, shown, target);
    },
  });
}
