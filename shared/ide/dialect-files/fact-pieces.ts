/** The words of a dialect's line, each with what it is. */
import type { Cols } from "../../syntax/span.ts";

export type FactPieceKind =
  /** Board text, between the slots. */
  | "left"
  | "slot"
  /** The name of a code. */
  | "code"
  | "keyword"
  | "operator"
  | "setting"
  | "mode"
  | "element"
  | "output"
  | "field"
  | "choice"
  | "number"
  | "unit"
  | "string";

export interface FactPiece extends Cols {
  readonly kind: FactPieceKind;
}
