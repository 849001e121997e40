/** What the commands of the OSD ask before they do anything. */
import { type QuickPickItem, window } from "vscode";
import type { AddableElement, GogglesPicture } from "../../shared/protocol/panel.ts";

interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** Grids in use: of the analogue overlay, and the wide ones of digital viewers (common practice). */
const USUAL: readonly { readonly label: string; readonly description?: string; readonly grid: Grid }[] = [
  { label: "pal", description: "30 x 16, analogue", grid: { columns: 30, rows: 16 } },
  { label: "ntsc", description: "30 x 13, analogue", grid: { columns: 30, rows: 13 } },
  { label: "50 x 18", grid: { columns: 50, rows: 18 } },
  { label: "53 x 20", grid: { columns: 53, rows: 20 } },
  { label: "60 x 22", grid: { columns: 60, rows: 22 } },
];
/** The largest grid that a script may say. */
const MOST: Grid = { columns: 64, rows: 32 };

/** Asks for a grid: one of the usual, or any size that is typed. Undefined where it was dismissed. */
export async function askGrid({ columns, rows }: Grid): Promise<Grid | undefined> {
  const others: (QuickPickItem & { grid: Grid | null })[] = USUAL.filter(
    ({ grid }) => grid.columns !== columns || grid.rows !== rows,
  ).map((usual) => ({ ...usual }));
  const chosen = await window.showQuickPick([...others, { label: "Another size…", grid: null }], {
    title: "Fit the OSD layout to another grid",
    placeHolder: `Now ${columns} x ${rows}. The panel shows first what becomes of it.`,
  });
  if (!chosen?.grid) return chosen && typedGrid();
  return chosen.grid;
}

async function typedGrid(): Promise<Grid | undefined> {
  const typed = await window.showInputBox({
    title: "Fit the OSD layout to another grid",
    prompt: "Columns and rows, as in 53 x 20",
    validateInput: (text) =>
      gridIn(text) ? undefined : `Type columns and rows, as in 53 x 20: up to ${MOST.columns} x ${MOST.rows}.`,
  });
  return typed === undefined ? undefined : (gridIn(typed) ?? undefined);
}

/** The grid that a text says; null where it says none, or a larger one than there may be. */
export function gridIn(text: string): Grid | null {
  const found = /^\s*(\d{1,2})\s*[x×*, ]\s*(\d{1,2})\s*$/i.exec(text);
  const grid = found && { columns: Number(found[1]), rows: Number(found[2]) };
  if (!grid || grid.columns < 1 || grid.rows < 1 || grid.columns > MOST.columns || grid.rows > MOST.rows) return null;
  return grid;
}

/** Asks for an element that the page does not show yet. Undefined where it was dismissed. */
export async function askElement({ addable, page }: GogglesPicture): Promise<AddableElement | undefined> {
  const items = addable.map((element) => ({ label: element.name, detail: element.what, element }));
  const title = page === "osd" ? "Add an OSD element" : "Add an element to the second page of the OSD";
  const chosen = await window.showQuickPick(items, { title, placeHolder: "Name or purpose", matchOnDetail: true });
  return chosen?.element;
}
