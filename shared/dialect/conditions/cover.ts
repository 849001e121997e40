/** How a board says when a mode is on: what comes of a condition. */
import type { Positions } from "../../logic/switchboard-types.ts";
import type { ChannelRange } from "./from-ranges.ts";
import type { BoardShape, RangesShape } from "./shapes.ts";
import type { RoundedEdge } from "./span-edges.ts";

/** A line of the board: the shape that it has, and for each range of the shape what it holds. */
export interface CoverLine {
  readonly shape: RangesShape;
  readonly ranges: readonly ChannelRange[];
}

export type Cover =
  | {
      readonly kind: "lines";
      /** None for a mode that is never on. */
      readonly lines: readonly CoverLine[];
      /** False where fewer lines might do. */
      readonly proven: boolean;
      readonly rounded: readonly RoundedEdge[];
    }
  /** One line that names the other mode, or says `always` (then `mode` is null). */
  | { readonly kind: "as-shape"; readonly shape: BoardShape; readonly mode: string | null }
  | {
      readonly kind: "cannot";
      /** As it continues “The board cannot say when arm is on: ”. */
      readonly why: string;
      /** A state in which the mode is on and the board, without a line for it, has it off; null where none is known. */
      readonly positions: Positions | null;
    };

/** A line that could be one of the cover, with what is rounded in it. */
export interface LineOption extends CoverLine {
  readonly rounded: readonly RoundedEdge[];
}
