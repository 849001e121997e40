/** What a pilot does on the picture of the OSD, and the request that makes edits of it. */
import type { Uri } from "./addresses.ts";
import type { PlaceRange } from "./findings.ts";
import type { Grid, OsdPage } from "./osd.ts";

/** A gesture on the picture. Column and row are those of the element's top left cell. */
export type OsdGesture =
  | { readonly kind: "move"; readonly element: string; readonly column: number; readonly row: number }
  | { readonly kind: "add"; readonly element: string; readonly column: number; readonly row: number }
  | { readonly kind: "remove"; readonly element: string }
  | { readonly kind: "fit"; readonly columns: number; readonly rows: number }
  /** Lays out a page that shows nothing yet, or says the grid where only that is missing. */
  | { readonly kind: "begin"; readonly from: OsdSource };

/** What a page is begun from; `file` as the receiver knows it: an address in the editor, a path in the server. */
export type OsdSource =
  /** The elements that most pilots fly by, as far as this craft can show them. */
  | ({ readonly kind: "usual" } & Grid)
  /** A layer that lays out an OSD: the craft uses it from then on. */
  | { readonly kind: "layer"; readonly file: string }
  /** The page of another craft, copied as it stands at that moment. */
  | { readonly kind: "craft"; readonly file: string };

/** A file from which a page could be begun, with the grid on which it lays out. */
export interface OsdModel extends Grid {
  readonly file: string;
  readonly name: string;
}

/** What a page could be begun from. */
export interface OsdBeginnings {
  readonly page: OsdPage;
  /** `page`: nothing is placed there yet; `grid`: elements are placed, and only the grid is missing. */
  readonly lacks: "page" | "grid";
  /** The grids that suit, the first the best; one alone is the viewer's own, or the one that is said already. */
  readonly grids: readonly Grid[];
  /** Layers of the workspace that lay out this page, and that the craft does not use. */
  readonly layers: readonly OsdModel[];
  /** Other craft of the workspace with this page. */
  readonly crafts: readonly OsdModel[];
}

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
