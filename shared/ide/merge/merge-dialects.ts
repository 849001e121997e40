import type { Document } from "./document.ts";
import type { Side } from "./match.ts";
import type { Marks, Piece } from "./rows.ts";
export function mergeDialects(
  _documents: Readonly<Record<Side, Document>>,
  _style: Marks["style"],
): readonly Piece[] | null {
  return null;
}
