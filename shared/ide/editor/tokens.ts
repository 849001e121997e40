/** Semantic tokens: the kind of each word of a script. */
import type { Script } from "../../model/script.ts";
import type { PieceKind } from "../../syntax/piece.ts";
import type { Cols, Span } from "../../syntax/span.ts";
import type { LineNode } from "../../syntax/tree.ts";

export type TokenKind = PieceKind | "header" | "section" | "comment" | "kept";

export interface Token extends Span {
  readonly kind: TokenKind;
}

/** The tokens of a script, in order of position, without overlaps. */
export function tokensOf(script: Script): Token[] {
  const tokens: Token[] = [];
  const { lines } = script.tree;
  let entry = 0;
  for (let line = 0; line < lines.length; line++) {
    const { node, comment } = lines[line]!;
    const add = (kind: TokenKind, { start, end }: Cols) => {
      if (end > start) tokens.push({ kind, line, start, end });
    };
    while (entry < script.entries.length && script.entries[entry]!.line < line) entry++;
    const current = script.entries[entry];
    if (current?.line === line) for (const piece of current.pieces) add(piece.kind, piece);
    else addStructure(node, add);
    if (comment) add("comment", comment);
  }
  return tokens;
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
