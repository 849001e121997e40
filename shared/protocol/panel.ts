/**
 * The model of the panel: plain data. The panel computes nothing about the craft; it
 * draws the model and reports gestures.
 */
import type { Uri } from "./addresses.ts";
import type { Against } from "./against.ts";
import type { BenchPicture, BenchShown } from "./bench.ts";
import type { OtherSide, RevisionParams } from "./compare.ts";
import type { PlaceRange, Severity } from "./findings.ts";
import type { GogglesPicture } from "./goggles.ts";
import type { NumbersPicture } from "./numbers.ts";
import type { Grid, OsdPage, Scenario } from "./osd.ts";
import type { OsdBeginnings } from "./osd-edit.ts";
import type { SignalPicture, SignalStep } from "./signal.ts";
import type { ControlsAt, SwitchesPicture } from "./switches.ts";
import type { Gap, WayOn } from "./ways.ts";

export type { LinePlace } from "./findings.ts";
export type {
  AddableElement,
  ElementFault,
  FigureReading,
  FitPreview,
  GogglesPicture,
  PanelElement,
} from "./goggles.ts";
export type { OsdPage, Scenario } from "./osd.ts";
export type {
  ControlsAt,
  LossPicture,
  OnLoss,
  PanelControl,
  PanelMode,
  PanelPosition,
  ReadyPicture,
  SwitchesPicture,
  SwitchesState,
} from "./switches.ts";

export type ViewName = "goggles" | "switches" | "numbers" | "bench" | "fleet";

/** Everything the panel shows, for one version of one document. */
export interface PanelModel {
  readonly file: string;
  readonly version: number;
  readonly craft: string;
  /** Parts of the craft that could not be read, each with the way to its line: what they say is in no drawing. */
  readonly missing: readonly Gap[];
  /** Why there is nothing to draw, in a sentence; null if there is something. */
  readonly empty: string | null;
  /** What leads on from there. */
  readonly emptyWays: readonly WayOn[];
  /** Other craft that this file is part of, if it is a layer or a handset. */
  readonly alsoIn: readonly { readonly file: string; readonly name: string }[];
  readonly goggles: GogglesPicture | null;
  /** Why there is no OSD to draw; null if there is one. */
  readonly noGoggles: string | null;
  readonly gogglesWays: readonly WayOn[];
  /** What the page could be begun from, if it shows nothing yet. */
  readonly begin: OsdBeginnings | null;
  readonly switches: SwitchesPicture | null;
  readonly noSwitches: string | null;
  readonly switchesWays: readonly WayOn[];
  /** What the switches lack, where there are some: a mode that arms, or controls that conditions name. */
  readonly switchesGaps: readonly Gap[];
  /** Null also while the view of numbers is not shown: then they are not computed. */
  readonly numbers: NumbersPicture | null;
  readonly noNumbers: string | null;
  readonly numbersWays: readonly WayOn[];
  /** The bench list; absent while its view is not shown. */
  readonly bench?: BenchPicture;
  /** The lost signal, phase by phase; absent at every other moment. */
  readonly signal?: SignalPicture;
  /** The commit that is drawn, in a few words, where the document shows a script of the past; absent where it is of now. */
  readonly past?: string;
  /** The other side of a comparison; absent where nothing is compared. */
  readonly against?: Against;
  readonly findings: readonly {
    readonly code: string;
    readonly severity: Severity;
    readonly message: string;
    readonly file: string;
    readonly range: PlaceRange;
    readonly witness: ControlsAt | null;
  }[];
}

// --- Server requests (language server protocol, method names of our own) ----------------------

/** `fettle/panel`: the model for a document. `craft` picks one where the file is part of several. */
export const PANEL_REQUEST = "fettle/panel";
export interface PanelParams {
  readonly uri: Uri;
  readonly craft?: Uri;
  /** The view that is shown: the numbers and the bench list are computed for their own views only. */
  readonly view?: ViewName;
  /** The view of a second page, where that shows another one. */
  readonly besides?: ViewName | undefined;
  /** How much of the bench list; left out: only what is due, once some check has a day. */
  readonly bench?: BenchShown | undefined;
  readonly positions?: ControlsAt;
  readonly scenario?: Scenario;
  readonly page?: OsdPage;
  /** Of a lost signal: the course and the phase that are shown. */
  readonly signal?: SignalStep;
  /** Shows the layout as it would be on this grid. */
  readonly fit?: Grid;
  /** Where the document shows a file as a revision of git has it: that file and revision, and the commit in a few words. */
  readonly past?: RevisionParams & { readonly title: string };
  /** What is shown with it, with both pictures laid over each other. */
  readonly against?: OtherSide;
}

/** A client that has this command names it as `positionsCommand` when it starts the server; findings then offer it. */
export const POSITIONS_COMMAND = "fettle.showPositions";
/** The argument of the command: the script of a finding, and the positions in which it occurs. */
export interface ShowPositions {
  readonly uri: Uri;
  readonly positions: ControlsAt;
}

/**
 * Shows both sides of a comparison on the panel: the pictures laid over each other, and the switches before and after.
 * Called from comparisons, which say what is meant; without an argument it ends what is shown.
 */
export const OVERLAY_COMMAND = "fettle.overlay";
/** Its argument: the script that is drawn, and what is laid over it. */
export interface ShowAgainst {
  readonly mine: Uri;
  readonly other: OtherSide;
}
