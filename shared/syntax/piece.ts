/** What a piece of a line is: for colouring, and for asking what stands under the cursor. */
import type { Cols } from "./span.ts";

export type PieceKind =
  | "setting"
  | "mode"
  | "output"
  | "element"
  | "control"
  | "position"
  | "channel"
  | "field"
  | "choice"
  | "number"
  | "unit"
  | "string"
  | "keyword"
  | "anchor"
  | "colour"
  | "date"
  | "operator";

/** `of` says more where the text alone does not: the control of a position. */
export interface Piece extends Cols {
  readonly kind: PieceKind;
  readonly of?: string;
}
