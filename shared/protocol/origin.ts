/** Where a value comes from, and lines that go from one file to another (method names of our own). */

import type { Uri } from "./addresses.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { LinePlace, Place, PlaceRange } from "./findings.ts";
import type { ScriptKind } from "./workspace-tree.ts";

/** A client that has this command names it as `originCommand` when it starts the server: it asks, and does the rest. */
export const ORIGIN_COMMAND = "fettle.changeOrigin";

/** A line that said a name or took it back. */
export interface OriginStep {
  readonly at: LinePlace;
  /** The name of the craft, layer or handset. */
  readonly script: string;
  readonly kind: ScriptKind;
  /** The name with what the line says of it; of a `drop` the line. */
  readonly says: string;
  readonly note: string;
  /** What became of it, in a few words: “counts”, “replaced by Habits, line 4”. */
  readonly state: string;
  readonly counts: boolean;
}

/** What can be done with a name, or with a selection. */
export type OriginAction =
  /** Writes its value into the craft's own file. */
  | { readonly kind: "override"; readonly title: string }
  /** Moves its lines into a layer that is asked for. */
  | { readonly kind: "move"; readonly title: string }
  | { readonly kind: "extract"; readonly title: string }
  /** Writes the layer of a `use` line of the craft out in it. */
  | { readonly kind: "inline"; readonly title: string; readonly line: number };

/** `fettle/origin`: which files said the name at a position, in merge order, nearest last. */
export const ORIGIN_REQUEST = "fettle/origin";
export interface OriginParams {
  readonly uri: Uri;
  readonly position: Place;
  /** Of several craft that use the file, the one that is meant. */
  readonly craft?: Uri | undefined;
}
export type OriginResult =
  | {
      readonly kind: "origin";
      /** SECTION.NAME. */
      readonly what: string;
      readonly craft: { readonly name: string; readonly uri: Uri };
      /** What counts now, in a few words. */
      readonly now: string;
      readonly steps: readonly OriginStep[];
      readonly actions: readonly OriginAction[];
    }
  | Refused;

/** A change that leaves the effective craft as it is, or, for `override`, begins one. */
export type Relocation =
  | { readonly kind: "override"; readonly position: Place }
  | { readonly kind: "move"; readonly range: PlaceRange; readonly into: Uri }
  | { readonly kind: "extract"; readonly range: PlaceRange; readonly name: string }
  | { readonly kind: "inline"; readonly line: number };

/** `fettle/relocate`: the edits of such a change. */
export const RELOCATE_REQUEST = "fettle/relocate";
export interface RelocateParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  readonly change: Relocation;
}
export type RelocateResult =
  | (EditedFiles & {
      /** What is to be known of it, a sentence each. */
      readonly notes: readonly string[];
      /** What is to be selected once the edits are made; null where nothing is. */
      readonly select: { readonly file: Uri; readonly range: PlaceRange } | null;
    })
  | Refused;

/** `fettle/layersFor`: the layers into which the lines of a selection could go. */
export const LAYERS_FOR_REQUEST = "fettle/layersFor";
export interface LayersForParams {
  readonly uri: Uri;
  readonly range: PlaceRange;
}
export interface LayerFor {
  readonly uri: Uri;
  readonly name: string;
  /** Its path as the craft would write it. */
  readonly path: string;
  /** Which other craft would change, in a few words. */
  readonly effect: string;
  /** Why the lines cannot go there, in a sentence; null where they can. */
  readonly refused: string | null;
}
export interface LayersForResult {
  /** The lines that would go, in a few words; a sentence where none can. */
  readonly what: string;
  readonly refused: string | null;
  readonly layers: readonly LayerFor[];
}

/** What is asked of the client's command by a code action. */
export interface ChangeOrigin {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  readonly action: "show" | "override" | "move" | "extract" | "inline";
  readonly range: PlaceRange;
}
