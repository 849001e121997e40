/** The classified parts of a line: for syntax colouring, and for finding what is at the cursor. */
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

/** `of` names what the piece belongs to, if its text alone does not tell: the control of a position. */
export interface Piece extends Cols {
  readonly kind: PieceKind;
  readonly of?: string;
}
