/** What is at a position of a script: line, entry, section, piece. */
import type { SectionSpec } from "../../catalogue/specs.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import type { Allowance, Entry, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Piece } from "../../syntax/piece.ts";
import type { Cols, Position } from "../../syntax/span.ts";
import type { LineNode } from "../../syntax/tree.ts";

/** A position in a script, with its line, entry and section. */
export interface CursorContext {
  readonly script: Script;
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly node: LineNode;
  readonly entry: Entry | null;
  /** The piece of the entry's line under the position; of two that touch, the later one. */
  readonly piece: Piece | null;
  /** The section of the line, a named pack as `pack/NAME`; null above the first section. */
  readonly section: string | null;
  readonly spec: SectionSpec | null;
}

/** The context of a position; null where the file or the line does not exist. */
export function cursorContextAt(workspace: Workspace, file: string, at: Position): CursorContext | null {
  const script = workspace.script(file);
  const line = script?.tree.lines[at.line];
  if (!script || !line) return null;
  const section = lastUpTo(script.sections, at.line);
  const entry = entryAt(script, at.line);
  return {
    script,
    line: at.line,
    column: at.character,
    text: line.text,
    node: line.node,
    entry,
    piece: entry?.pieces.findLast((piece) => coversColumn(piece, at.character)) ?? null,
    section: section?.section ?? null,
    spec: (section && workspace.catalogue.section(baseOf(section.section))) ?? null,
  };
}

/** True if a column is in a range of columns or directly after it. */
export function coversColumn(cols: Cols, column: number): boolean {
  return column >= cols.start && column <= cols.end;
}

/** The `allow` whose code stands at a position; undefined if there is none. */
export function allowanceAt({ script, line, column }: CursorContext): Allowance | undefined {
  return script.allowances.find(({ codeSpan }) => codeSpan.line === line && coversColumn(codeSpan, column));
}

/** The entry of a line; null where the line is no entry. */
export function entryAt(script: Script, line: number): Entry | null {
  const entry = lastUpTo(script.entries, line);
  return entry?.line === line ? entry : null;
}

/** The last item on a line or above it, by binary search; the items are in order of line. */
function lastUpTo<T extends { readonly line: number }>(all: readonly T[], line: number): T | undefined {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (all[middle]!.line <= line) low = middle + 1;
    else high = middle;
  }
  return all[low - 1];
}

/** The craft for which a file is read: the file itself, else the first craft that uses it. */
export function craftFor(workspace: Workspace, file: string): Craft | null {
  const own = workspace.craft(file);
  if (own) return own;
  const [first] = workspace.craftFilesWith(file);
  return first === undefined ? null : workspace.craft(first);
}

/** As many craft as an answer can be made for while a pointer rests on a word. */
const MOST_CRAFT = 20;

/** The craft for which a file is read: the file itself, else the first of those that use it, and how many more there are. */
export function firstCraftsFor(
  workspace: Workspace,
  file: string,
): { readonly crafts: readonly Craft[]; readonly more: number } {
  const own = workspace.craft(file);
  if (own) return { crafts: [own], more: 0 };
  const files = workspace.craftFilesWith(file);
  const crafts = files.slice(0, MOST_CRAFT).flatMap((each) => workspace.craft(each) ?? []);
  return { crafts, more: Math.max(0, files.length - MOST_CRAFT) };
}
