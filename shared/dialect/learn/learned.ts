/** What is learned from pairs of a craft and its board's text. */
import type { Craft } from "../../model/craft.ts";

export interface Pair {
  readonly craft: Craft;
  readonly text: string;
  /** As reports name it. */
  readonly name: string;
}

export interface LearnedLine {
  /** The left sides as they stand in the dialect, quotes included. */
  readonly left: string;
  /** `SECTION NAME` of what it says. */
  readonly says: readonly string[];
}

/** What stays open, and what would decide it. */
export interface OpenQuestion {
  /** `SECTION NAME`, or a line of a text. */
  readonly what: string;
  readonly why: string;
  /** What to change on the board. */
  readonly change: string;
}

export interface Learned {
  /** A dialect as text: what is proposed, and nothing else. */
  readonly dialect: string;
  readonly lines: readonly LearnedLine[];
  readonly open: readonly OpenQuestion[];
  readonly notes: readonly string[];
}
