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

/** The tokens of a script, in order of position, without overlaps. */
export function tokensOf(script: Script, catalogue: Catalogue): Token[] {
  const tokens: Token[] = [];
  const { lines, kind } = script.tree;
  let entry = 0;
  let section = "";
  for (let line = 0; line < lines.length; line++) {
    const { node, comment } = lines[line]!;
    const add = (kind: TokenKind, { start, end }: Cols) => {
      if (end > start) tokens.push({ kind, line, start, end });
    };
    while (entry < script.entries.length && script.entries[entry]!.line < line) entry++;
    const current = script.entries[entry];
    if (current?.line === line) for (const piece of current.pieces) add(piece.kind, piece);
    else if (node.kind === "fact")
      for (const piece of factLineIn(section, lines[line]!, catalogue)?.pieces ?? []) add(piece.kind, piece);
    else if (node.kind === "section" && kind === "dialect") addTitle(lines[line]!.text, node, add);
    else addStructure(node, add);
    if (node.kind === "section") section = node.name.text;
    if (comment) add("comment", comment);
  }
  return tokens;
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
