/** A craft as one script for others, with what was taken out of it. */
import type { Uri } from "./addresses.ts";
import type { Refused } from "./file-edits.ts";
import type { LinePlace } from "./findings.ts";

/** Something that is not in the shared script, or that is in it and may be private. */
export interface SharePart {
  /** SECTION.NAME, `note`, `name` or `line`. */
  readonly what: string;
  readonly why: string;
  readonly at: LinePlace;
}

/** `fettle/share`: the script that can be given to others, of a craft or of one that uses the file. */
export const SHARE_REQUEST = "fettle/share";
export interface ShareParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  /** Kept board text: none of it, or the lines in which nothing hints at something private. */
  readonly board: "without" | "with";
}
export type ShareResult =
  | {
      readonly kind: "shared";
      readonly name: string;
      /** Beside the craft's own file. */
      readonly proposed: Uri;
      readonly text: string;
      /** What was private, or not understood. */
      readonly taken: readonly SharePart[];
      /** What only a handset can say, and what stands in comments instead. */
      readonly ofHandset: readonly SharePart[];
      /** What was left in, and is to be looked at. */
      readonly kept: readonly SharePart[];
      /** Whether there is board text that could be kept. */
      readonly hasBoardText: boolean;
    }
  | Refused;
