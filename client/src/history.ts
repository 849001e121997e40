/** The history of the value at the cursor, as a list; each row leads to the texts before and after. */
import { type QuickPickItem, Range, ThemeIcon, Uri, window, workspace } from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import { OTHER_SCHEME } from "../../shared/protocol/compare.ts";
import type { Place } from "../../shared/protocol/findings.ts";
import {
  HISTORY_REQUEST,
  type HistoryParams,
  type HistoryResult,
  type HistoryRow,
} from "../../shared/protocol/history.ts";
import { otherTextIn } from "../../shared/protocol/other-texts.ts";
import { addressOf, nameOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import type { EffectiveCrafts } from "./effective.ts";
import { columnFor, scriptOf, selectLine } from "./script-editors.ts";
import { makeList, showDiff, tellInformation } from "./shown-window.ts";

interface Parts {
  readonly ask: Ask;
  readonly effective: Pick<EffectiveCrafts, "sourceAt">;
  /** The craft that the panel draws, where a file is part of several. */
  readonly drawnCraft: () => Address | undefined;
}

type History = Extract<HistoryResult, { kind: "history" }>;
type Item = QuickPickItem & { readonly row?: HistoryRow };

/** Shows who changed the value at the cursor, when, and what it was. */
export async function showHistory({ ask, effective, drawnCraft }: Parts): Promise<void> {
  const params = here(effective, drawnCraft);
  if (!params) return void tellInformation("Open a script, and put the cursor on an entry first.");
  const chosen = await pick(ask<HistoryResult>(HISTORY_REQUEST, params));
  if (chosen) await open(chosen);
}

/** The list is there at once, so that nobody wonders whether anything happens while git is asked. */
function pick(asked: Promise<HistoryResult>): Promise<HistoryRow | undefined> {
  const box = makeList<Item>();
  box.title = "The history of this value";
  box.busy = true;
  box.matchOnDescription = true;
  box.matchOnDetail = true;
  const show = (found: HistoryResult) => {
    box.busy = false;
    if (found.kind === "refused") {
      box.items = [{ label: found.message }];
      return;
    }
    box.title = `${found.what} on ${found.craft.name}: ${found.now}`;
    box.placeholder = "The last change first. Enter shows the text before and after";
    box.items = itemsOf(found);
  };
  asked.then(show, (error) => show({ kind: "refused", message: `The history could not be told: ${error}` }));
  return new Promise((resolve) => {
    let chosen: Item | undefined;
    box.onDidAccept(() => {
      chosen = box.activeItems[0];
      box.hide();
    });
    box.onDidHide(() => {
      box.dispose();
      resolve(chosen?.row);
    });
    box.show();
  });
}

function here(effective: Parts["effective"], drawnCraft: Parts["drawnCraft"]): HistoryParams | undefined {
  const editor = window.activeTextEditor;
  const script = scriptOf(editor);
  if (editor && script) {
    const position = plain(editor.selection.active);
    return { uri: addressOf(script.uri), position, craft: drawnCraft() };
  }
  const found = editor && effective.sourceAt(editor.document, editor.selection.active.line);
  if (!found) return undefined;
  const { file, line } = found.source;
  const text = workspace.textDocuments.find((each) => each.uri.toString() === file)?.lineAt(line).text ?? "  ";
  const character = text.length - text.trimStart().length;
  return { uri: addressOf(Uri.parse(file)), position: { line, character }, craft: found.craft };
}

function plain({ line, character }: Place): Place {
  return { line, character };
}

function itemsOf({ rows, notes }: History): Item[] {
  const none: Item[] = rows.length === 0 ? [{ label: "No commit changed it" }] : [];
  const told = notes.map((note): Item => ({ label: note, iconPath: new ThemeIcon("info") }));
  return [...rows.map(itemOf), ...none, ...told];
}

function itemOf(row: HistoryRow): Item {
  const { commit, author, day, subject, words, note, at } = row;
  const who = commit === null ? "Not committed yet" : [day, author ?? commit].filter(Boolean).join("  ");
  const place = at ? `${nameOfThen(at.file)}:${at.line + 1}` : "";
  const detail = [commit === null ? "" : subject, place, note.replace(/\s+/g, " ")];
  return {
    label: who,
    description: words,
    detail: detail.filter((each) => each !== "").join(" · "),
    iconPath: new ThemeIcon(commit === null ? "edit" : "git-commit"),
    row,
  };
}

/** The name that a file had, without the commit that a text of then is called by. */
function nameOfThen(address: string): string {
  const { scheme, query } = Uri.parse(address);
  const text = scheme === OTHER_SCHEME ? otherTextIn(query) : null;
  return nameOfAddress(text && "uri" in text ? text.uri : address);
}

/** The last part of an address. */
function nameOfAddress(address: string): string {
  return nameOf(Uri.parse(address));
}

/** Shows both texts beside each other at the line, or the one that there is. */
async function open({ at, before }: HistoryRow): Promise<void> {
  if (!at) return before === null ? undefined : selectLine({ file: before, line: 0 });
  if (before === null) return selectLine(at);
  const [left, right] = [Uri.parse(before), Uri.parse(at.file)];
  const line = new Range(at.line, 0, at.line, 0);
  const viewColumn = columnFor(await workspace.openTextDocument(right));
  const title = `${nameOfAddress(before)} ↔ ${nameOfAddress(at.file)}`;
  await showDiff(left, right, title, { viewColumn, preview: true, selection: line });
}
