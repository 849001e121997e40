/** A craft as text for its board: copied, copied as what changed, or saved. What is to be known of it is shown before. */
import { env, type QuickPickItem, QuickPickItemKind, ThemeIcon, Uri, window, workspace } from "vscode";
import {
  BOARD_OF_REQUEST,
  BOARD_WRITE_REQUEST,
  type BoardOfParams,
  type BoardOfResult,
  type BoardRemark,
  type BoardWriteParams,
  type BoardWriteResult,
} from "../../shared/protocol/board.ts";
import { addressOf, nameOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { type BoardEncoding, boardBytesOf, boardTextOf } from "./board-files.ts";
import { pickCraft } from "./pick-craft.ts";
import { activeScript, selectLine } from "./script-editors.ts";
import { askPlace, pickOne, tellInformation, tellWarning } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly ask: Ask;
  readonly scripts: Pick<WorkspaceScripts, "list">;
  readonly drawnCraft: () => BoardOfParams["craft"];
}

export interface BoardWriteCommands {
  copy(from?: unknown): Promise<void>;
  copyChanges(from?: unknown): Promise<void>;
  save(from?: unknown): Promise<void>;
}

type Board = Extract<BoardOfResult, { kind: "board" }>;
type Written = Extract<BoardWriteResult, { kind: "written" }>;

/** The craft's board and what is written for it, with the base as its file has it. */
interface Ready {
  readonly board: Board;
  readonly written: Written;
  readonly encoding: BoardEncoding;
}

/** The commands; `from` is a menu's script, by default that in front. */
export function boardWriteCommands(parts: Parts): BoardWriteCommands {
  return {
    async copy(from) {
      const ready = await readyFor(parts, from);
      if (!ready) return;
      const { board, written } = ready;
      if (!(await mayGoOn(ready, "Copy the text", "to the clipboard", "copy"))) return;
      await env.clipboard.writeText(written.text);
      say(`The text for ${board.craft.name} is copied. Propellers off at the bench.`);
    },
    async copyChanges(from) {
      const ready = await readyFor(parts, from);
      if (!ready) return;
      const { board, written } = ready;
      if (written.changes === "" && written.remarks.length === 0)
        return say(`The board's last text says all that ${board.craft.name} says: there is nothing to send.`);
      if (!(await mayGoOn(ready, `Copy ${lines(written.changedLines)}`, "only what changed", "copy"))) return;
      if (written.changes === "") return say("Nothing changed that can be sent, so the clipboard is as it was.");
      await env.clipboard.writeText(written.changes);
      say(`What changed for ${board.craft.name} is copied. Propellers off at the bench.`);
    },
    async save(from) {
      const ready = await readyFor(parts, from);
      if (!ready) return;
      if (!(await mayGoOn(ready, "Save the text…", "as a file", "save"))) return;
      await saveText(ready);
    },
  };
}

async function readyFor({ ask, scripts, drawnCraft }: Parts, from: unknown): Promise<Ready | undefined> {
  const named = from instanceof Uri ? from : activeScript()?.uri;
  const uri = named ?? (await pickCraft(await scripts.list(), "Write for the board of which craft?"));
  if (!uri) return undefined;
  const params: BoardOfParams = { uri: addressOf(uri), craft: drawnCraft() };
  const board = await ask<BoardOfResult>(BOARD_OF_REQUEST, params);
  if (board.kind === "refused") return say(board.message);
  const base = board.base === null ? null : await readBase(Uri.parse(board.base));
  if (base === undefined) return undefined;
  const write: BoardWriteParams = { craft: board.craft.uri, dialect: board.dialect.uri, base: base?.text ?? null };
  const written = await ask<BoardWriteResult>(BOARD_WRITE_REQUEST, write);
  if (written.kind === "refused") return say(written.message);
  return { board, written, encoding: base?.encoding ?? "utf-8" };
}

/** The base as it is saved, or as an editor has changed it; undefined, and a message, where it cannot be read. */
async function readBase(uri: Uri): Promise<{ text: string; encoding: BoardEncoding } | undefined> {
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  try {
    const saved = boardTextOf(await workspace.fs.readFile(uri));
    return open?.isDirty && saved.encoding === "utf-8" ? { text: open.getText(), encoding: "utf-8" } : saved;
  } catch {
    const path = workspace.asRelativePath(uri, false);
    return say(
      `The board's last text, ${path}, is not there: save the board's text under that name, or take the line “text” out of the section “board”.`,
    );
  }
}

type Item = QuickPickItem & { readonly goOn?: true; readonly at?: BoardRemark["at"] };

const HEADINGS: Readonly<Record<BoardRemark["kind"], string>> = {
  cannot: "cannot be written: the board keeps what it has",
  "by-hand": "to be cleared by hand on the board",
  rounded: "rounded to what the board holds",
  curve: "curves of the board's own: the nearest fit",
  filled: "filled in, as nobody says it",
  unsaid: "no line of the dialect says it",
  "only-base": "only the board's last text says it",
  note: "to be known",
};

/** Shows what is to be known, where there is anything; a line of it leads to the craft's. */
async function mayGoOn({ board, written }: Ready, label: string, description: string, icon: string): Promise<boolean> {
  if (written.remarks.length === 0) return true;
  const kinds = Object.keys(HEADINGS) as BoardRemark["kind"][];
  const items: Item[] = [
    { label, description, iconPath: new ThemeIcon(icon), goOn: true },
    ...kinds.flatMap((kind): Item[] => {
      const of = written.remarks.filter((remark) => remark.kind === kind);
      if (of.length === 0) return [];
      return [
        { label: HEADINGS[kind], kind: QuickPickItemKind.Separator },
        ...of.map(({ what, words, at }) => ({ label: what || words, description: what ? words : "", at })),
      ];
    }),
  ];
  const grave = written.remarks.filter(({ kind }) => kind === "cannot" || kind === "by-hand").length;
  const chosen = await pickOne(items, {
    title: `For the board of ${board.craft.name}: ${lines(written.changedLines)} to send${grave > 0 ? `, ${grave} to see to yourself` : ""}`,
    placeHolder: "Read what is below, then go on with the first line; the others lead to the craft's",
    matchOnDescription: true,
    ignoreFocusOut: true,
  });
  if (chosen?.at) await selectLine(chosen.at);
  return chosen?.goOn === true;
}

/** Saves beside the last text, or over it once that is confirmed, or where the pilot says. */
async function saveText({ board, written, encoding }: Ready): Promise<void> {
  const bytes = boardBytesOf(written.text, encoding);
  if (!bytes)
    return say(
      "The last text is in Latin-1, which has not every character of the new one: spell it otherwise in the craft.",
    );
  const base = board.base === null ? undefined : Uri.parse(board.base);
  const beside = await freeTextBeside(base ?? Uri.parse(board.craft.uri));
  const kept = base ? "the last saved text stays" : "beside the craft";
  const here = { label: `Save as ${nameOf(beside)}`, description: kept, uri: beside, asks: false };
  const over = base && {
    label: `Save over ${nameOf(base)}`,
    description: "the last saved text goes",
    uri: base,
    asks: true,
  };
  const elsewhere = { label: "Save elsewhere…", description: "", uri: undefined, asks: false };
  const chosen = await pickOne([here, ...(over ? [over] : []), elsewhere], {
    title: `Save for the board of ${board.craft.name}`,
    placeHolder: "Where does it go?",
    ignoreFocusOut: true,
  });
  if (!chosen) return;
  if (chosen.asks) {
    const detail = "What the board had before is then only in your history of this file.";
    const answer = await tellWarning(`Save over ${nameOf(base!)}?`, { modal: true, detail }, "Save Over It");
    if (answer === undefined) return;
  }
  const uri = chosen.uri ?? (await askPlace({ title: "Save for the board", defaultUri: beside }));
  if (!uri) return;
  try {
    await workspace.fs.writeFile(uri, bytes);
  } catch (error) {
    return say(`${nameOf(uri)} could not be saved: ${error instanceof Error ? error.message : error}`);
  }
  await window.showTextDocument(uri, { preview: false });
}

/** `jug.txt` gives `jug-new.txt`, or the first number of it that is free. */
async function freeTextBeside(uri: Uri): Promise<Uri> {
  const folder = Uri.joinPath(uri, "..");
  const stem = nameOf(uri).replace(/\.[^.]*$/, "");
  for (let number = 1; ; number++) {
    const free = Uri.joinPath(folder, `${stem}-new${number === 1 ? "" : `-${number}`}.txt`);
    try {
      await workspace.fs.stat(free);
    } catch {
      return free;
    }
  }
}

function lines(count: number): string {
  return count === 1 ? "1 line" : `${count} lines`;
}

function say(message: string): undefined {
  void tellInformation(message);
}
