/** “Name This Line…”: a line of a board's text gets our name and value, and the dialect beside it the line that says so. */
import {
  type QuickPick,
  type QuickPickItem,
  Range,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import {
  BOARD_NAMES_REQUEST,
  type BoardName,
  type BoardNamesParams,
  type BoardNamesResult,
  NAME_LINE_REQUEST,
  type NamedLine,
  type NameLineParams,
  type NameLineResult,
} from "../../shared/protocol/board.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import type { BoardLooks } from "./board-looks.ts";
import type { BoardTexts } from "./board-texts.ts";
import { activeScript, isCraft } from "./script-editors.ts";
import { makeField, makeList, tellInformation } from "./shown-window.ts";
import { makeEdits } from "./versioned-edits.ts";

interface Parts {
  readonly ask: Ask;
  readonly texts: BoardTexts;
  readonly looks: BoardLooks;
}

type NameItem = QuickPickItem & { readonly named?: BoardName };
type OfferItem = QuickPickItem & { readonly offer: NamedLine };
type Offers = Extract<NameLineResult, { kind: "lines" }>;

/** Asks for the name, the value and the piece of the line, and writes the line of the dialect. */
export async function nameBoardLine({ ask, texts, looks }: Parts, editor: TextEditor): Promise<void> {
  const { document } = editor;
  const { line } = editor.selection.active;
  const text = document.lineAt(line).text.trim();
  if (text === "") {
    void tellInformation("This line is blank: put the cursor in the line that is to be named.");
    return;
  }
  const title = `Name line ${line + 1}: ${text.length > 60 ? `${text.slice(0, 59)}…` : text}`;
  const named = await pickOurName(ask, editor, title);
  if (!named) return;
  const request = (value: string): Promise<NameLineResult> => {
    const params: NameLineParams = {
      ...texts.askedOf(document),
      line,
      section: named.section,
      name: named.name,
      value,
    };
    return ask<NameLineResult>(NAME_LINE_REQUEST, params);
  };
  const answered = await askValue(named, title, request);
  if (!answered) return;
  const chosen = await pickOffer(answered.offers, title, (lines) => looks.preview(editor, lines));
  if (!chosen) return;
  const done = await makeEdits(async () => {
    // The dialect may have changed meanwhile: the same line is looked for once more.
    const again = await request(answered.value);
    if (again.kind === "refused") return again;
    const same = again.offers.find(({ fact }) => fact === chosen.fact);
    return (
      same?.adopt ?? {
        kind: "refused",
        message: "The dialect has changed meanwhile, so nothing was written: name the line once more.",
      }
    );
  });
  if (done.kind === "refused") {
    void tellInformation(done.message);
    return;
  }
  if (answered.offers.isNew) await texts.choose(document, answered.offers.dialect.uri);
  await showBeside(answered.offers.dialect.uri, chosen.fact, editor);
  texts.changed();
}

/** Asks for our name by plain words; those that the craft says come first, with its values. */
async function pickOurName(ask: Ask, editor: TextEditor, title: string): Promise<BoardName | undefined> {
  const front = activeScript();
  const craft = front && isCraft(front) ? addressOf(front.uri) : null;
  const pick = makeList<NameItem>();
  pick.title = title;
  pick.placeholder = "Which of our names is it? A name, or plain words: warn-at, low battery warning …";
  pick.ignoreFocusOut = true;
  let latest: Promise<void> = Promise.resolve();
  const search = () => {
    const typed = pick.value;
    pick.busy = true;
    const params: BoardNamesParams = { uri: addressOf(editor.document.uri), typed, craft };
    latest = ask<BoardNamesResult>(BOARD_NAMES_REQUEST, params).then((result) => {
      if (pick.value === typed) fillNames(pick, typed, result);
    });
  };
  search();
  pick.onDidChangeValue(search);
  pick.show();
  return chosenOf(pick, async () => {
    // Whoever types and presses Enter at once means what was typed.
    await latest;
    return (pick.activeItems[0] ?? pick.items.find((item) => item.named))?.named;
  });
}

function fillNames(pick: QuickPick<NameItem>, typed: string, { names, craft }: BoardNamesResult): void {
  pick.items =
    names.length === 0
      ? [{ label: `Nothing fits “${typed}”`, detail: "Try other words, or fewer of them.", alwaysShow: true }]
      : names.map((named) => ({
          label: `${named.section} ${named.name}`,
          description: named.value === null ? "" : `${craft}: ${named.value}`,
          detail: named.summary,
          alwaysShow: true,
          named,
        }));
  const first = pick.items.find((item) => item.named);
  if (first) pick.activeItems = [first];
  pick.busy = false;
}

/** Asks for the value as a script writes it, until something in the line can be it. */
function askValue(
  { name, value, example }: BoardName,
  title: string,
  request: (value: string) => Promise<NameLineResult>,
): Promise<{ value: string; offers: Offers } | undefined> {
  const box = makeField();
  box.title = title;
  box.prompt = `What does the line say of ${name}, as a script writes it?${example === "" ? "" : ` For example: ${example}`}`;
  box.value = value ?? "";
  box.placeholder = example;
  box.ignoreFocusOut = true;
  box.onDidChangeValue(() => {
    box.validationMessage = undefined;
  });
  box.show();
  return chosenOf(box, async () => {
    const asked = box.value.trim();
    if (asked === "") return undefined;
    box.busy = true;
    const result = await request(asked).finally(() => {
      box.busy = false;
    });
    if (result.kind === "lines") return { value: asked, offers: result };
    box.validationMessage = result.message;
    return undefined;
  });
}

function pickOffer({ offers, isNew, dialect }: Offers, title: string, preview: (lines: readonly number[]) => void) {
  const pick = makeList<OfferItem>();
  pick.title = title;
  pick.placeholder = isNew
    ? `Which line goes into a new dialect, “${dialect.name}”?`
    : `Which line goes into the dialect “${dialect.name}”?`;
  pick.matchOnDetail = true;
  pick.ignoreFocusOut = true;
  pick.items = offers.map((offer) => ({ label: offer.fact, detail: `${offer.how} · ${offer.reads}`, offer }));
  pick.onDidChangeActive(([active]) => preview(active?.offer.lines ?? []));
  pick.onDidHide(() => preview([]));
  pick.show();
  return chosenOf(pick, async () => pick.activeItems[0]?.offer);
}

/** An input that is answered or left. */
interface Asked {
  onDidAccept(listener: () => void): unknown;
  onDidHide(listener: () => void): unknown;
  dispose(): void;
}

/** What was chosen; undefined where the input is left. While an answer is no answer the input stays. */
function chosenOf<T>(input: Asked, answer: () => Promise<T | undefined>): Promise<T | undefined> {
  return new Promise((resolve) => {
    input.onDidAccept(async () => {
      const chosen = await answer();
      if (chosen === undefined) return;
      resolve(chosen);
      input.dispose();
    });
    input.onDidHide(() => {
      resolve(undefined);
      input.dispose();
    });
  });
}

/** Shows the dialect beside the text, at the line that was written; the keyboard stays with the text. */
async function showBeside(dialect: string, fact: string, from: TextEditor): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(dialect));
  const open = window.visibleTextEditors.find((editor) => editor.document === document);
  const beside = await window.showTextDocument(document, {
    viewColumn: open?.viewColumn ?? ViewColumn.Beside,
    preserveFocus: true,
    preview: false,
  });
  const right = fact.slice(fact.lastIndexOf("  ") + 2);
  for (let line = document.lineCount - 1; line >= 0; line--) {
    if (!document.lineAt(line).text.endsWith(right)) continue;
    beside.revealRange(new Range(line, 0, line, 0), TextEditorRevealType.InCenterIfOutsideViewport);
    break;
  }
  await window.showTextDocument(from.document, {
    viewColumn: from.viewColumn ?? ViewColumn.Active,
    preserveFocus: false,
  });
}
