/** What can be done with a board's text: its dialect chosen, read into a script, reviewed, and one change on the board looked for. */
import {
  env,
  Position,
  Selection,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  WorkspaceEdit,
  window,
  workspace,
} from "vscode";
import {
  BOARD_DIALECTS_REQUEST,
  BOARD_MOVED_REQUEST,
  BOARD_READ_REQUEST,
  type BoardDialectsResult,
  type BoardMovedParams,
  type BoardMovedResult,
  type BoardReadParams,
  type BoardReadResult,
} from "../../shared/protocol/board.ts";
import type { Reviewed } from "../../shared/protocol/review-messages.ts";
import { addressOf, nameOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { freePath } from "./ask-steps.ts";
import { readBoardFile } from "./board-files.ts";
import type { BoardLooks } from "./board-looks.ts";
import type { BoardTexts } from "./board-texts.ts";
import { nameBoardLine } from "./name-line.ts";
import { pickCraft } from "./pick-craft.ts";
import { askFile, pickOne, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly ask: Ask;
  readonly texts: BoardTexts;
  readonly looks: BoardLooks;
  readonly scripts: Pick<WorkspaceScripts, "list">;
  readonly review: (about: Reviewed) => void;
}

export interface BoardCommands {
  chooseDialect(from?: unknown): Promise<void>;
  nameLine(from?: unknown): Promise<void>;
  read(from?: unknown): Promise<void>;
  review(from?: unknown): Promise<void>;
  moved(from?: unknown): Promise<void>;
}

/** The commands; `from` is what a lens or a menu hands over, by default the text in front is meant. */
export function boardCommands({ ask, texts, looks, scripts, review }: Parts): BoardCommands {
  const commands: BoardCommands = {
    async chooseDialect(from) {
      const editor = await editorFor(from);
      if (!editor) return;
      const result = texts.of(editor.document);
      const { dialects } =
        result?.kind === "several" ? result : await ask<BoardDialectsResult>(BOARD_DIALECTS_REQUEST, {});
      if (dialects.length === 0)
        return say("There is no dialect in this workspace yet: “Name This Line…” begins one beside the text.");
      const chosen = await pickOne(
        dialects.map(({ name, uri }) => ({ label: name, description: workspace.asRelativePath(Uri.parse(uri)), uri })),
        { title: "Read this text by which dialect?", placeHolder: "Name or file", matchOnDescription: true },
      );
      if (chosen) await texts.choose(editor.document, chosen.uri);
    },
    async nameLine(from) {
      const editor = await editorFor(from);
      if (editor) await nameBoardLine({ ask, texts, looks }, editor);
    },
    async read(from) {
      const editor = await editorFor(from);
      if (!editor) return;
      const handset = await pickHandset();
      if (handset === undefined) return;
      const params: BoardReadParams = { ...texts.askedOf(editor.document), handset: handset && addressOf(handset) };
      const result = await ask<BoardReadResult>(BOARD_READ_REQUEST, params);
      if (result.kind === "refused") return say(result.message);
      await openRead(result);
    },
    async review(from) {
      const editor = await editorFor(from);
      if (!editor) return;
      const result = texts.of(editor.document);
      if (result?.kind !== "read")
        return say("No dialect reads this text yet: choose one for it, or name one of its lines first.");
      const [only, other] = result.craft;
      const mine = only && !other ? only.uri : await craftFor("Review this text: for which craft of yours?");
      if (!mine) return;
      const { document } = editor;
      const name = nameOf(document.uri);
      const dialect = result.dialect.uri;
      review({
        mine,
        offer: { kind: "board", text: document.getText(), name, uri: addressOf(document.uri), dialect },
        purpose: "review",
      });
    },
    async moved(from) {
      const editor = await editorFor(from);
      if (!editor) return;
      const before = await askBefore(editor.document.uri);
      if (before === undefined) return;
      const params: BoardMovedParams = { before, after: editor.document.getText() };
      const { moved } = await ask<BoardMovedResult>(BOARD_MOVED_REQUEST, params);
      await showMoved(editor, moved, () => nameBoardLine({ ask, texts, looks }, editor));
    },
  };

  const craftFor = async (title: string) => {
    const picked = await pickCraft(await scripts.list(), title);
    return picked && addressOf(picked);
  };
  const pickHandset = async (): Promise<Uri | null | undefined> => {
    const handsets = (await scripts.list())?.files.filter(({ kind }) => kind === "handset") ?? [];
    if (handsets.length === 0) return null;
    const chosen = await pickOne(
      [
        ...handsets.map(({ name, file }) => ({
          label: name,
          description: workspace.asRelativePath(Uri.parse(file), false),
          uri: Uri.parse(file) as Uri | null,
        })),
        { label: "No handset", description: "conditions then name channels", uri: null },
      ],
      { title: "Read into a script: whose controls are the channels?", placeHolder: "A handset" },
    );
    return chosen?.uri;
  };
  return commands;
}

/** The editor of the text that is meant: that of a lens or a menu, else the one in front. */
async function editorFor(from: unknown): Promise<TextEditor | undefined> {
  const uri = from instanceof Uri ? from : addressIn(from);
  const shown = window.visibleTextEditors.find(({ document }) => uri && document.uri.toString() === uri.toString());
  const editor =
    window.activeTextEditor && (!uri || window.activeTextEditor.document.uri.toString() === uri.toString())
      ? window.activeTextEditor
      : (shown ?? (uri ? await window.showTextDocument(uri) : undefined));
  if (!editor || editor.document.languageId === "fettle")
    return say("Open the board's text first: a file with what the board wrote.");
  return editor;
}

function addressIn(from: unknown): Uri | undefined {
  if (typeof from !== "object" || from === null || !("uri" in from)) return undefined;
  return typeof from.uri === "string" ? Uri.parse(from.uri) : undefined;
}

/** Writes the script as a new file, which no other has, and shows it beside. */
async function openRead({
  proposed,
  text,
  counts,
  notes,
}: Extract<BoardReadResult, { kind: "script" }>): Promise<void> {
  const wanted = Uri.parse(proposed);
  const folder = Uri.joinPath(wanted, "..");
  const told = `${counts.read} lines understood; ${counts.odd + counts.kept} are kept as they are.`;
  if (!workspace.fs.isWritableFileSystem(wanted.scheme)) {
    const untitled = await workspace.openTextDocument({ language: "fettle", content: text });
    await window.showTextDocument(untitled, { preview: false, viewColumn: ViewColumn.Beside });
  } else {
    const uri = Uri.joinPath(folder, await freePath(folder, nameOf(wanted)));
    const edit = new WorkspaceEdit();
    edit.createFile(uri, { contents: new TextEncoder().encode(text) });
    if (!(await workspace.applyEdit(edit))) return say("The editor did not make the file, so nothing was written.");
    await window.showTextDocument(uri, { preview: false, viewColumn: ViewColumn.Beside });
  }
  void tellInformation([told, ...notes].join(" "));
}

type Before = { readonly label: string; readonly description?: string; read(): Promise<string | undefined> };

/** Asks for the text that was saved before the change. */
async function askBefore(after: Uri): Promise<string | undefined> {
  const found = await workspace.findFiles("**/*.txt", "**/node_modules/**", 60);
  const beside = found.filter((uri) => uri.toString() !== after.toString());
  const items: Before[] = [
    ...beside.map((uri) => ({ label: workspace.asRelativePath(uri, false), read: () => readBoardFile(uri) })),
    {
      label: "The clipboard",
      description: "what you copied before the change",
      read: () => Promise.resolve(env.clipboard.readText()),
    },
    {
      label: "Another file…",
      async read() {
        const uri = await askFile({ title: "The text before the change", openLabel: "Compare" });
        return uri && readBoardFile(uri);
      },
    },
  ];
  const chosen = await pickOne(items, {
    title: `What changed in ${nameOf(after)}?`,
    placeHolder: "The text that was saved before the change",
  });
  return chosen?.read();
}

async function showMoved(
  editor: TextEditor,
  moved: BoardMovedResult["moved"],
  name: () => Promise<void>,
): Promise<void> {
  if (moved.length === 0)
    return say("Both texts are the same: save the board's text again after the change, and compare that.");
  const chosen = await pickOne(
    moved.map(({ before, after }) => ({
      label: (after ?? before)!.text.trim() || "(a blank line)",
      description: after ? `line ${after.line + 1}` : "gone",
      detail: after ? (before ? `was: ${before.text.trim()}` : "is new") : `was line ${before!.line + 1}`,
      line: after?.line,
    })),
    {
      title: `${moved.length} ${moved.length === 1 ? "line" : "lines"} changed`,
      placeHolder: "Pick a line to name it",
      matchOnDetail: true,
    },
  );
  if (chosen?.line === undefined) return;
  const at = new Position(chosen.line, 0);
  editor.selection = new Selection(at, at);
  editor.revealRange(editor.selection, TextEditorRevealType.InCenterIfOutsideViewport);
  await name();
}

function say(message: string): undefined {
  void tellInformation(message);
}
