/** Takes the statements of a result in their order, and keeps notes apart that must not run together. */
import { type Piece, type Row, rowsPiece } from "./rows.ts";

export interface Output {
  readonly pieces: readonly Piece[];
  /** `isComment`: a run of comments that belongs to no statement. */
  put(lead: readonly Row[], pieces: readonly Piece[], isComment: boolean): void;
}

const BLANK: Row = { text: "", end: null };

export function output(): Output {
  const all: Piece[] = [];
  let isBelowComment = false;
  return {
    pieces: all,
    put(lead, pieces, isComment) {
      // Without a blank line in between a comment that belongs to nothing would become the note of what follows.
      const above = lead.length === 0 && isBelowComment ? [BLANK] : lead;
      if (above.length > 0) all.push(rowsPiece(above));
      all.push(...pieces);
      isBelowComment = isComment;
    },
  };
}
