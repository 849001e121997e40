/** What becomes of the lines that name files, of a `use` or of a board, when files are renamed, moved or deleted (method names of our own). */
import type { Uri } from "./addresses.ts";
import type { PlaceRange } from "./findings.ts";

/** `fettle/useLines`: asked before the files are moved or deleted; folders stand for all that is in them. */
export const USE_LINES_REQUEST = "fettle/useLines";
export type UseLinesParams =
  | { readonly kind: "move"; readonly files: readonly { readonly oldUri: Uri; readonly newUri: Uri }[] }
  | { readonly kind: "delete"; readonly files: readonly { readonly uri: Uri }[] };

export interface UseLinesResult {
  /** By the addresses that the scripts have once the files are moved. `was` is the text that an edit replaces. */
  readonly files: readonly {
    readonly file: Uri;
    readonly edits: readonly { readonly range: PlaceRange; readonly was: string; readonly text: string }[];
  }[];
  /** How many lines are changed. */
  readonly lines: number;
  /** How many of them are `use` lines; the others name the dialect or the text of a board. */
  readonly uses: number;
  /** The names of the craft that use what is deleted. */
  readonly craft: readonly string[];
  /** Why further lines are left as they are, a sentence each. */
  readonly left: readonly string[];
}
