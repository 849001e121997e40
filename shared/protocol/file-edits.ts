/** Edits of several files that the server has worked out: made as one step to undo, or not at all. */
import type { Uri } from "./addresses.ts";
import type { PlaceRange } from "./findings.ts";

export interface EditedFiles {
  readonly kind: "edits";
  /** `version` is that of the document for which the edits were made; null for a file that is not open. */
  readonly files: readonly {
    readonly file: Uri;
    readonly version: number | null;
    readonly edits: readonly { readonly range: PlaceRange; readonly text: string }[];
  }[];
  /** Files that are made in the same step; none of them exists yet. */
  readonly creates?: readonly { readonly file: Uri; readonly text: string }[];
}

/** Why nothing can be done, in a sentence. */
export interface Refused {
  readonly kind: "refused";
  readonly message: string;
}
