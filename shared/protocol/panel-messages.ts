/** The messages between the panel's page and its host in the editor. */
import type { BenchLooks } from "./bench.ts";
import type { BenchGesture, BenchTrial } from "./bench-edit.ts";
import type { LinePlace } from "./findings.ts";
import type { PackedFleet } from "./fleet-messages.ts";
import type { MotorGesture } from "./motor-edit.ts";
import type { Grid, OsdPage, Scenario } from "./osd.ts";
import type { OsdGesture } from "./osd-edit.ts";
import type { ControlsAt, PanelModel, ViewName } from "./panel.ts";
import type { SignalStep } from "./signal.ts";
import type { PanelAction } from "./ways.ts";

export type { PanelAction } from "./ways.ts";

/** A craft of the workspace, for a page that has no script to draw. */
export interface ListedCraft {
  readonly file: string;
  readonly name: string;
  /** Its handset and its findings, in words. */
  readonly aside: string;
}

/** What was dropped on a page: a file by its address, a text, or a file that is no text of a person's. */
export type Dropped =
  | { readonly kind: "file"; readonly uri: string }
  | { readonly kind: "text"; readonly text: string; readonly name: string }
  | { readonly kind: "too-large"; readonly name: string; readonly megabytes: number };

/** By the file of the craft. */
export type BenchLooksOf = Readonly<Record<string, BenchLooks>>;

/** A gesture on the bench list; the host knows which day it is. */
export type BenchMade = Exclude<BenchGesture, { kind: "day" }> | { readonly kind: "day"; readonly check: string };

export type ToPanel =
  | { readonly kind: "model"; readonly model: PanelModel }
  /** Every craft of the workspace, while no script is open. */
  | { readonly kind: "craft-list"; readonly craft: readonly ListedCraft[] }
  /** All craft side by side; sent while their view is shown. */
  | { readonly kind: "fleet"; readonly fleet: PackedFleet }
  /** How the bench lists of some craft are looked at, as another page has it. */
  | { readonly kind: "bench-looks"; readonly looks: BenchLooksOf }
  /** What came of something that was written down on the bench list; `name` is that of the check or of the reading. */
  | { readonly kind: "bench-told"; readonly name: string; readonly message: string; readonly isWritten: boolean }
  /** What a text that is being typed would be read as. */
  | { readonly kind: "bench-tried"; readonly name: string; readonly typed: string; readonly trial: BenchTrial }
  /** The cursor's line, so that the element written there is marked. */
  | { readonly kind: "cursor"; readonly at: LinePlace | null }
  /** No model could be made: the server does not run, or failed. Until the next model what was drawn is out of date. */
  | { readonly kind: "failed" }
  | { readonly kind: "show"; readonly view: ViewName }
  /** Asks whether the page has keyboard focus. */
  | { readonly kind: "keyboard" };

export type FromPanel =
  | { readonly kind: "ready" }
  /** The page has gained keyboard focus; or, as an answer, whether it has focus. */
  | { readonly kind: "keyboard"; readonly has: boolean }
  /** What a restored page had last shown, for a host that has received nothing since. */
  | {
      readonly kind: "remembered";
      readonly scenario: Scenario | null;
      readonly signal: SignalStep | null;
      readonly positions: ControlsAt;
    }
  /** A view other than the goggles is shown, or the view has changed. */
  | { readonly kind: "view"; readonly view: ViewName }
  /** A button that leads on, such as the one of an empty view. */
  | { readonly kind: "run"; readonly action: PanelAction }
  | { readonly kind: "select"; readonly at: LinePlace }
  /** Something was dropped on the page, to be reviewed for the craft that is drawn. */
  | { readonly kind: "dropped"; readonly what: Dropped }
  | { readonly kind: "positions"; readonly positions: ControlsAt }
  | { readonly kind: "craft"; readonly file: string }
  /**
   * `file` is that of the model on which the gesture was made: another script may be in front by now. It
   * names an element and a cell, so it has a meaning for whatever the script says by then.
   */
  | { readonly kind: "osd"; readonly file: string; readonly page: OsdPage; readonly gesture: OsdGesture }
  /** Like one on the picture of the OSD, on the drawing of the motors. */
  | { readonly kind: "motor"; readonly file: string; readonly gesture: MotorGesture }
  /** Written down on the bench list, for the file of the model on which it was. */
  | { readonly kind: "bench"; readonly file: string; readonly gesture: BenchMade }
  /** A reading is being typed. */
  | { readonly kind: "bench-try"; readonly file: string; readonly name: string; readonly typed: string }
  /** How bench lists are looked at: now, or before the page was hidden, for a host that knows nothing newer. */
  | { readonly kind: "bench-looks"; readonly looks: BenchLooksOf; readonly since: "now" | "before" }
  | { readonly kind: "look"; readonly scenario: Scenario; readonly page: OsdPage }
  /** The signal is lost, or is there again and the moment of the flight that was shown before. */
  | { readonly kind: "signal"; readonly is: "lost" | "up" }
  /** Of a lost signal: the course and the phase to show. */
  | { readonly kind: "signal-step"; readonly at: SignalStep }
  /** Shows the layout on another grid; null ends the preview. */
  | { readonly kind: "preview"; readonly grid: Grid | null }
  /** Shows the craft by itself again. */
  | { readonly kind: "end-against" }
  /** Undo and redo belong to the document that was last edited from here. */
  | { readonly kind: "undo" }
  | { readonly kind: "redo" };
