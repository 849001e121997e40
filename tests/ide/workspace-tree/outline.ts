/** A workspace as the tree beside the panel shows it, unfolded to its last row: a row a line, what it unfolds indented. */

import { statusInWords } from "../../../shared/draw/status-words.ts";
import { type OutlineRow, rowsBelow, topRows } from "../../../shared/draw/workspace-outline.ts";
import { craftStatusOf } from "../../../shared/ide/workspace-tree/craft-status.ts";
import { makeTrees } from "../../../shared/ide/workspace-tree/workspace-tree.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";

/** As in `craft Jug | Wheel · 1 error`; what stands in the hover is left out. */
export async function outlineOf(workspace: Workspace): Promise<string> {
  const tree = await makeTrees().withFindings(workspace);
  const lines: string[] = [];
  const ids = new Set<string>();
  const show = (row: OutlineRow, depth: number) => {
    if (ids.has(row.id)) throw new Error(`Two rows have the id ${row.id}.`);
    ids.add(row.id);
    const kind = row.kind === "group" ? "" : `${row.kind} `;
    lines.push(`${"  ".repeat(depth)}${kind}${row.label}${row.aside === "" ? "" : ` | ${row.aside}`}`);
    const below = row.unfolds === "not" ? [] : rowsBelow(tree, row, (file) => file);
    if (row.unfolds !== "not" && below.length === 0) throw new Error(`${row.label} unfolds to nothing.`);
    for (const each of below) show(each, depth + 1);
  };
  for (const row of topRows(tree)) show(row, 0);
  return lines.join("\n");
}

/** The files of a text: the path of each stands before it, as in `=== craft/jug.fettle`. */
export function filesOf(text: string): Record<string, string> {
  const parts = text.split(/^=== (.+)\n/m).slice(1);
  return Object.fromEntries(parts.flatMap((part, i) => (i % 2 === 0 ? [[part, parts[i + 1]!]] : [])));
}

/** What the status bar says while a file is in front, with its hover behind it. */
export function statusLine(workspace: Workspace, file: string): string {
  const status = craftStatusOf(workspace, file);
  if (!status) return "nothing";
  const { text, hover } = statusInWords(status);
  return `${text} | ${hover.join(" / ")}`;
}
