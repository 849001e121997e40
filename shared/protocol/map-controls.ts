/** Conditions written for another handset, and the request that proposes which control becomes which. */
import type { Uri } from "./addresses.ts";
import type { PlaceRange } from "./findings.ts";

/** A control that conditions name, and what it becomes. */
export interface MappingRow {
  readonly from: string;
  /** Null where it stays as it is. */
  readonly to: string | null;
  /** Why this one, or why none, in a few words. */
  readonly why: string;
  /** For each position that conditions name, the one that takes its place. */
  readonly positions: readonly (readonly [from: string, to: string])[];
  /** What could stand for it; `takenBy` is the control that has it now. */
  readonly choices: readonly { readonly to: string; readonly what: string; readonly takenBy: string | null }[];
}

/** `fettle/mapControls`: the proposal, as the pilot has changed it so far, and its edits. */
export const MAP_CONTROLS_REQUEST = "fettle/mapControls";
export interface MapControlsParams {
  readonly uri: Uri;
  readonly craft?: Uri;
  /** A handset that is to take the place of the craft's own. */
  readonly handset?: Uri;
  /** By control: what the pilot chose for it; null leaves it as it is. */
  readonly chosen: Readonly<Record<string, string | null>>;
  /** Layers whose conditions are changed too. */
  readonly layers: readonly Uri[];
}
export type MapControlsResult =
  | {
      readonly kind: "mapping";
      readonly craft: string;
      readonly handset: string;
      readonly rows: readonly MappingRow[];
      readonly layers: readonly {
        readonly file: Uri;
        readonly name: string;
        /** How many of its lines name one of these controls. */
        readonly lines: number;
        /** Other craft that use it. */
        readonly alsoIn: readonly string[];
      }[];
      /** `version` is that of the document for which the edits were made; null for a file that is not open. */
      readonly files: readonly {
        readonly file: Uri;
        readonly version: number | null;
        readonly edits: readonly { readonly range: PlaceRange; readonly text: string }[];
      }[];
    }
  /** Why nothing can be mapped, in a sentence. */
  | { readonly kind: "refused"; readonly message: string };
