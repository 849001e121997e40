/** What stands at a position of a script, for every service that asks. */
import type { SectionSpec } from "../../catalogue/types.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Piece } from "../../syntax/piece.ts";
import type { Cols, Position } from "../../syntax/span.ts";
import type { LineNode } from "../../syntax/tree.ts";

/** A position, with all that is known of it. */
export interface CursorContext {
  readonly script: Script;
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly node: LineNode;
  readonly entry: Entry | null;
  /** The piece of the entry's line under the position; of two that touch, the later one. */
  readonly piece: Piece | null;
  /** The section that the line stands in, as resolved; null above the first. */
  readonly section: string | null;
  readonly spec: SectionSpec | null;
}

/** What stands at a position; null where the file or the line is not there. */
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

/** True where a column lies in a stretch or directly behind it. */
export function coversColumn(cols: Cols, column: number): boolean {
  return column >= cols.start && column <= cols.end;
}

/** The entry of a line; null where the line is none. */
export function entryAt(script: Script, line: number): Entry | null {
  const entry = lastUpTo(script.entries, line);
  return entry?.line === line ? entry : null;
}

/** The last of some things in order of line that stands on a line or above it. */
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

/** The effective craft in whose light a file is read: the file itself, else the first craft that uses it. */
export function craftFor(workspace: Workspace, file: string): Craft | null {
  return craftsFor(workspace, file)[0] ?? null;
}

/** Every craft in whose light a file may be read: the file itself, else all that use it. */
export function craftsFor(workspace: Workspace, file: string): Craft[] {
  const own = workspace.craft(file);
  return own ? [own] : workspace.craftsWith(file);
}

/** A line as a person quotes it to another: `layers/habits.fettle:12`, counted from 1. */
export function lineReference(source: Source, from: string): string {
  return `${source.file === from ? "line " : `${pathBetween(from, source.file)}:`}${source.line + 1}`;
}
