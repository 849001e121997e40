/** What leads on from where there is nothing to draw: buttons, and what each does. */
import type { Uri } from "./addresses.ts";
import type { LinePlace, PlaceRange } from "./findings.ts";
import type { OsdPage } from "./osd.ts";
import type { OsdEditResult } from "./osd-edit.ts";

/** Lines that can be written into a script for the pilot to fill in. */
export type Fillable =
  | "header"
  | "rates"
  | "pack"
  | "filters"
  | "loop-rate"
  | "esc-signal"
  | "arm-layout"
  | "arm"
  | "controls"
  /** The port that serves something, such as `port gps`. */
  | `port ${string}`;

/** A repair that a finding offers, by what it is called: the finding of that code that names the line. */
export interface Repair {
  readonly at: LinePlace;
  readonly code: string;
  readonly title: string;
}

/**
 * What the page may ask the editor to do, by name. The host alone knows which command that is (`client/src/panel-actions.ts`),
 * so a page can start nothing else.
 */
export type PanelAction =
  | { readonly name: "new-craft" }
  | { readonly name: "new-handset" }
  /** Renames the controls in the conditions of a craft to those of its handset. */
  | { readonly name: "map-controls"; readonly file: string }
  /** Asks from what the page is to begin. */
  | { readonly name: "begin-osd"; readonly page: OsdPage }
  /** Asks which handset of the workspace a craft is to use. */
  | { readonly name: "use-handset"; readonly file: string }
  /** Asks which craft is to use this layer or handset. */
  | { readonly name: "use-in-craft"; readonly file: string }
  /** Writes lines into a script, and selects the value that is to be filled in. */
  | { readonly name: "fill-in"; readonly file: string; readonly what: Fillable }
  | { readonly name: "go"; readonly at: LinePlace }
  /** Makes a repair of a finding of this craft. */
  | ({ readonly name: "repair"; readonly file: string } & Repair)
  /** Shows the page of a name, KIND/NAME. */
  | { readonly name: "explain"; readonly of: string }
  /** Shows the panel as a tab, where there is more room. */
  | { readonly name: "enlarge" }
  /** Shows the fleet as a tab, where there is more room. */
  | { readonly name: "open-wide" }
  /** Saves the bench list of a script as a page or as Markdown. */
  | { readonly name: "save-bench"; readonly file: string }
  /** Puts a mode on other positions on many craft at once. */
  | { readonly name: "change-habit" }
  /** Makes other craft like one of them. */
  | { readonly name: "make-alike" }
  | { readonly name: "find-update" }
  | { readonly name: "restart-server" }
  | { readonly name: "show-log" };

/** A button that leads on. */
export interface WayOn {
  readonly label: string;
  readonly action: PanelAction;
}

/** Something that is missing: why, in a sentence, and what ends that, the likeliest first. */
export interface Gap {
  readonly why: string;
  readonly ways: readonly WayOn[];
}

/** `fettle/scripts`: the scripts of a kind in the workspace, by name. */
export const SCRIPTS_REQUEST = "fettle/scripts";
export interface ScriptsParams {
  /** The script that is to use one of them, or to be used by one: it is not listed, nor what already does. */
  readonly uri: Uri;
  readonly kind: "craft" | "handset";
}
export type ScriptsResult = readonly { readonly uri: Uri; readonly name: string; readonly path: string }[];

/** `fettle/insert`: the edits that write into a script what an action names. */
export const INSERT_REQUEST = "fettle/insert";
export interface InsertParams {
  readonly uri: Uri;
  readonly insert:
    | { readonly kind: "fill-in"; readonly what: Fillable }
    | { readonly kind: "use"; readonly uri: Uri }
    | ({ readonly kind: "repair" } & Repair);
}
export type InsertResult =
  | (Extract<OsdEditResult, { kind: "edits" }> & {
      /** What is to be selected once the edits are made; null where the pilot has nothing to fill in. */
      readonly select: { readonly file: Uri; readonly range: PlaceRange } | null;
    })
  | Extract<OsdEditResult, { kind: "refused" }>;
