/** Semantic tokens: the kind of each word of a script. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import type { PieceKind } from "../../syntax/piece.ts";
import type { Cols, Span } from "../../syntax/span.ts";
import type { LineNode } from "../../syntax/tree.ts";
import { factLineIn } from "../dialect-files/fact-line.ts";
import type { FactPieceKind } from "../dialect-files/fact-pieces.ts";
import { slotsBetween } from "../dialect-files/slot-uses.ts";

export type TokenKind = PieceKind | FactPieceKind | "header" | "section" | "comment" | "kept";

export interface Token extends Span {
  readonly kind: TokenKind;
}

/** Lines from the first to the last, both included. */
export interface LineRun {
  readonly first: number;
  readonly last: number;
}

/** The tokens of a script, or of some of its lines, in order of position, without overlaps. */
export function tokensOf(script: Script, catalogue: Catalogue, of: LineRun = ALL_LINES): Token[] {
  const tokens: Token[] = [];
  const { lines, kind, sections } = script.tree;
  const first = Math.max(0, of.first);
  const last = Math.min(lines.length - 1, of.last);
  let entry = countAbove(script.entries, first);
  let begun = countAbove(sections, first);
  for (let line = first; line <= last; line++) {
    const { node, comment } = lines[line]!;
    const add = (kind: TokenKind, { start, end }: Cols) => {
      if (end > start) tokens.push({ kind, line, start, end });
    };
    while (entry < script.entries.length && script.entries[entry]!.line < line) entry++;
    const current = script.entries[entry];
    if (current?.line === line) for (const piece of current.pieces) add(piece.kind, piece);
    else if (node.kind === "fact")
      for (const piece of factLineIn(sections[begun - 1]?.name ?? "", lines[line]!, catalogue)?.pieces ?? [])
        add(piece.kind, piece);
    else if (node.kind === "section" && kind === "dialect") addTitle(lines[line]!.text, node, add);
    else addStructure(node, add);
    if (sections[begun]?.line === line) begun++;
    if (comment) add("comment", comment);
  }
  return tokens;
}

const ALL_LINES: LineRun = { first: 0, last: Number.POSITIVE_INFINITY };

/** How many of them, which are in order of line, stand above a line. */
function countAbove(all: readonly { readonly line: number }[], line: number): number {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (all[middle]!.line < line) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The name of a dialect's section; its title may have slots. */
function addTitle(
  text: string,
  { name, title }: LineNode & { kind: "section" },
  add: (kind: TokenKind, at: Cols) => void,
): void {
  add("section", name);
  if (!title) return;
  let { start } = title;
  for (const slot of slotsBetween(text, title, "right")) {
    add("string", { start, end: slot.start });
    add("slot", slot);
    start = slot.end;
  }
  add("string", { start, end: title.end });
}

function addStructure(node: LineNode, add: (kind: TokenKind, at: Cols) => void): void {
  switch (node.kind) {
    case "header":
      add("header", node.word);
      if (node.name) add("string", node.name);
      return;
    case "use":
      add("keyword", node.word);
      if (node.path) add("string", node.path);
      return;
    case "section":
      add("section", node.name);
      if (node.title) add("string", node.title);
      return;
    case "drop":
      add("keyword", node.word);
      if (node.all) add("keyword", node.all);
      for (const name of node.names) add("setting", name);
      return;
    case "kept":
      add("kept", { start: node.bar, end: node.bar + 1 + node.text.length });
      return;
    default:
      return;
  }
}
