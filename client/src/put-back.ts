/** “Put the Craft Back After a Wipe…”: what to do then, beside the script or as a file; its day goes into the script only where the pilot says so. */
import { type QuickPickItem, ThemeIcon, Uri, ViewColumn, window, workspace } from "vscode";
import { BENCH_EDIT_REQUEST, type BenchEditParams, type BenchEditResult } from "../../shared/protocol/bench-edit.ts";
import {
  BENCH_FILE_REQUEST,
  type BenchFileParams,
  type BenchFileResult,
  type WipedBoard,
} from "../../shared/protocol/bench-file.ts";
import { BOARD_OF_REQUEST, type BoardOfParams, type BoardOfResult } from "../../shared/protocol/board.ts";
import { localDay } from "../../shared/text/day.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { boardTextOf } from "./board-files.ts";
import { pickCraft } from "./pick-craft.ts";
import { saveList } from "./save-bench.ts";
import { activeScript } from "./script-editors.ts";
import { askText, pickOne, tellInformation } from "./shown-window.ts";
import { makeEdits } from "./versioned-edits.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly ask: Ask;
  readonly scripts: Pick<WorkspaceScripts, "list">;
  readonly panel: { drawnCraft(): BenchFileParams["craft"] };
}

type Item = QuickPickItem & { readonly does: "write" | "show" | "save" };

/** Of a menu the craft that it names, else the one in front, else one that is asked for. */
export async function putBack({ ask, scripts, panel }: Parts, from?: unknown): Promise<void> {
  const named = from instanceof Uri ? from : activeScript()?.uri;
  const uri = named ?? (await pickCraft(await scripts.list(), "Put a craft back after a wipe"));
  if (!uri) return;
  const of = { uri: addressOf(uri), craft: panel.drawnCraft() };
  const day = await askDay();
  if (day === undefined) return;
  const wiped: WipedBoard = { day, saved: await savedText(ask, of) };
  const fetch = (form: BenchFileParams["form"]) =>
    ask<BenchFileResult>(BENCH_FILE_REQUEST, { ...of, form, wiped } satisfies BenchFileParams);
  const made = await fetch("markdown");
  if (made.kind === "refused") return say(made.message);
  const chosen = await pickOne(itemsFor(day), {
    title: `Put “${made.name}” back after a wipe`,
    placeHolder: "Propellers off first; older checks that rest on the board's software become due",
    ignoreFocusOut: true,
  });
  if (chosen?.does === "save") return saveList(fetch, "list for putting back");
  if (!chosen) return;
  if (chosen.does === "write") {
    const gesture = { kind: "reading", name: "board.flashed-on", text: day } as const;
    let told = "";
    const done = await makeEdits(async () => {
      const answer = await ask<BenchEditResult>(BENCH_EDIT_REQUEST, { ...of, gesture } satisfies BenchEditParams);
      if (answer.kind === "edits") told = answer.told;
      return answer;
    });
    say(done.kind === "refused" ? done.message : told);
  }
  // With the day in the script it says so.
  const shown = chosen.does === "write" ? await fetch("markdown") : made;
  if (shown.kind === "refused") return say(shown.message);
  const document = await workspace.openTextDocument({ language: "markdown", content: shown.text });
  await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: false });
}

function itemsFor(day: string): Item[] {
  const item = (does: Item["does"], icon: string, label: string, description: string): Item => ({
    does,
    label,
    description,
    iconPath: new ThemeIcon(icon),
  });
  return [
    item(
      "write",
      "edit",
      `Show what to do, and write “flashed-on ${day}”`,
      "into the craft's own file; undo takes it back",
    ),
    item("show", "open-preview", "Only show what to do", "as Markdown with boxes, beside the script"),
    item("save", "save", "Save what to do…", "as a page to print, with pictures, or as Markdown"),
  ];
}

function askDay(): Thenable<string | undefined> {
  return askText({
    title: "Put the craft back after a wipe",
    prompt: "On which day does the board get its new software?",
    value: localDay(new Date()),
    ignoreFocusOut: true,
    validateInput: (text) => (isDay(text.trim()) ? undefined : "A day, such as 2026-03-15"),
  }).then((text) => text?.trim());
}

/** Whether a text is a day that the calendar has. */
function isDay(text: string): boolean {
  const day = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(`${text}T00:00:00Z`) : null;
  return day !== null && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** The text that the craft names; null where it names none, or it cannot be read. */
async function savedText(ask: Ask, of: BoardOfParams): Promise<string | null> {
  const board = await ask<BoardOfResult>(BOARD_OF_REQUEST, of);
  if (board.kind === "refused" || board.base === null) return null;
  try {
    return boardTextOf(await workspace.fs.readFile(Uri.parse(board.base))).text;
  } catch {
    return null;
  }
}

function say(message: string): void {
  void tellInformation(message);
}
