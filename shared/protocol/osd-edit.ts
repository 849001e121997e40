/** What a pilot does on the picture of the OSD, and the request that makes edits of it. */
import type { Uri } from "./addresses.ts";
import type { PlaceRange } from "./findings.ts";
import type { OsdPage } from "./osd.ts";

/** A gesture on the picture. Column and row are those of the element's top left cell. */
export type OsdGesture =
  | { readonly kind: "move"; readonly element: string; readonly column: number; readonly row: number }
  | { readonly kind: "add"; readonly element: string; readonly column: number; readonly row: number }
  | { readonly kind: "remove"; readonly element: string }
  | { readonly kind: "fit"; readonly columns: number; readonly rows: number };

/**
 * Where a gesture is written: in the file of the existing line (`there`), or in the craft, overriding its
 * layers (`override`).
 */
export type WriteWhere = "there" | "override";

/** `fettle/osdEdit`: the edits of the scripts for a gesture. */
export const OSD_EDIT_REQUEST = "fettle/osdEdit";
export interface OsdEditParams {
  readonly uri: Uri;
  readonly craft?: Uri;
  readonly page: OsdPage;
  readonly gesture: OsdGesture;
  /** Null: not chosen yet. Then the result is `choose` if other craft use the line too. */
  readonly where: WriteWhere | null;
}
/** `version` is that of the document for which the edits were made; null for a file that is not open. */
export type OsdEditResult =
  | {
      readonly kind: "edits";
      readonly files: readonly {
        readonly file: Uri;
        readonly version: number | null;
        readonly edits: readonly { readonly range: PlaceRange; readonly text: string }[];
      }[];
    }
  /** The line is in a layer that these craft use as well. */
  | { readonly kind: "choose"; readonly layer: string; readonly sharedWith: readonly string[] }
  /** Why nothing can be written, in a sentence. */
  | { readonly kind: "refused"; readonly message: string };
