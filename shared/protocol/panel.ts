/**
 * The model of the panel: plain data. The panel computes nothing about the craft; it
 * draws the model and reports gestures.
 */
import type { Uri } from "./addresses.ts";
import type { AdjustPicture } from "./adjust.ts";
import type { Against } from "./against.ts";
import type { OtherSide } from "./compare.ts";
import type { LinePlace, PlaceRange, Severity } from "./findings.ts";
import type { NumbersPicture } from "./numbers.ts";
import type { Grid, OsdPage, Scenario } from "./osd.ts";
import type { OsdBeginnings } from "./osd-edit.ts";
import type { SignalPicture, SignalStep } from "./signal.ts";
import type { Gap, WayOn } from "./ways.ts";

export type { LinePlace } from "./findings.ts";
export type { OsdPage, Scenario } from "./osd.ts";

export type ViewName = "goggles" | "switches" | "numbers";

/** What a figure shows, from the same readings as the texts. */
export type FigureReading =
  /** How much of it is filled, from 0 to 1. */
  | { readonly kind: "bar"; readonly share: number }
  /** Clockwise from straight ahead. */
  | { readonly kind: "arrow"; readonly turnDeg: number }
  /** Nose up and right side down are positive. */
  | { readonly kind: "horizon"; readonly pitchDeg: number; readonly rollDeg: number }
  | { readonly kind: "compass"; readonly headingDeg: number }
  /** A scale that slides past its mark, with a line at every step. */
  | { readonly kind: "scale"; readonly value: number; readonly step: number; readonly unit: string }
  /** A stick, from -1 to 1 to the right and up. */
  | { readonly kind: "stick"; readonly across: number; readonly up: number };

export interface PanelElement {
  readonly name: string;
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
  readonly drawn: "text" | "bar" | "sight" | "horizon" | "arrow" | "trace" | "tape";
  /** Sample text, a string for each row; empty for a figure. */
  readonly text: readonly string[];
  /** The display shows nothing for it at this moment: the text is its name, so that its place is visible. */
  readonly blank: boolean;
  /** What a figure shows; absent for one that shows no reading. */
  readonly figure?: FigureReading;
  /** The place as written, such as `left+2, bottom-1`. */
  readonly placed: string;
  readonly what: string;
  readonly at: LinePlace;
  /** Cells, as column and row, that it shares with another element or that are off the grid. */
  readonly clashing: readonly (readonly [number, number])[];
  /** An overlay: it may share cells with other elements. */
  readonly overlapsNothing: boolean;
  /** It flashes in this scenario: a threshold of the script has been passed. */
  readonly flashes: boolean;
  /** Other craft that use the same line, if it is in a layer: moving the element there moves it on them too. */
  readonly sharedWith: readonly string[];
  /** What is found of it, such as a port or a sensor that it needs and the craft does not have. */
  readonly faults: readonly ElementFault[];
}

/** A finding of an element, with the buttons that repair it. */
export interface ElementFault {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** It is marked in the picture: the element is wrong, or stays empty, and no mere matter of taste. */
  readonly marked: boolean;
  readonly ways: readonly WayOn[];
}

/** An element that could be added to the page. */
export interface AddableElement {
  readonly name: string;
  readonly what: string;
  readonly width: number;
  readonly height: number;
  /** What it needs, in words that follow “needs”: what the craft lacks, and what its script says nothing of. */
  readonly lacks: readonly string[];
  readonly asks: readonly string[];
}

/** A layout on another grid, before anything is written. */
export interface FitPreview extends Grid {
  /** Elements for which there was no room. */
  readonly unplaced: readonly string[];
}

export interface GogglesPicture extends Grid {
  /** Width over height of the whole picture. */
  readonly aspect: number;
  /** How the craft leans at this moment, in degrees: nose up and right side down are positive. */
  readonly attitude: { readonly pitchDeg: number; readonly rollDeg: number };
  /** Whole cells inside the safe area, ends included; null if no rule asks for one. */
  readonly safe: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  } | null;
  readonly elements: readonly PanelElement[];
  readonly page: OsdPage;
  /** The pages that the craft lays out. */
  readonly pages: readonly OsdPage[];
  readonly scenario: Scenario;
  /** True if a mode hides this page in some state: then the panel can show the picture without it too. */
  readonly canHide: boolean;
  readonly addable: readonly AddableElement[];
  /** The grid that the viewer draws, where the craft says it. */
  readonly viewerGrid: Grid | null;
  /** Set if the picture is a preview on another grid; elements then cannot be moved. */
  readonly preview: FitPreview | null;
}

export interface PanelPosition {
  readonly name: string;
  readonly pulseUs: number;
  /** Modes that depend on this control and can be on with it here. */
  readonly modes: readonly string[];
  /** It never arrives as itself: its channel carries two levels, and this is none of them. */
  readonly lost?: true;
}

export interface PanelControl {
  readonly name: string;
  readonly kind: "switch" | "selector" | "button" | "dial";
  readonly channel: number;
  readonly positions: readonly PanelPosition[];
  /** For a dial: parts of its range with the same modes. */
  readonly spans: readonly { readonly fromUs: number; readonly toUs: number; readonly modes: readonly string[] }[];
  readonly rest: string | null;
  /** Where the hand finds it; absent where the script does not say it. */
  readonly lies?: {
    readonly side: "left" | "right" | "middle";
    readonly face: "shoulder" | "face" | "back" | null;
  };
  readonly at: LinePlace;
}

/** Positions of the simulated controls: a position's name, or a pulse in us. */
export type ControlsAt = Readonly<Record<string, string | number>>;

export interface SwitchesState {
  readonly positions: ControlsAt;
  /** True if every control is in its rest position: nobody has moved one. */
  readonly atRest: boolean;
  /**
   * "armed", "not armed", "armed in some of these states", "not known what arm depends on", or null
   * if the script has no arm.
   */
  readonly armed: "yes" | "no" | "depends" | "unknown" | null;
  readonly on: readonly { readonly name: string; readonly what: string; readonly lines: readonly LinePlace[] }[];
  /** On or off, depending on what is not set here. */
  readonly possible: readonly { readonly name: string; readonly what: string; readonly lines: readonly LinePlace[] }[];
  /** Names of modes whose state is not known, since a line that they depend on has a fault or is too tangled. */
  readonly unknown: readonly string[];
  /** Those of them whose condition, or that of a mode behind it, is too tangled to follow. */
  readonly tangled?: readonly string[];
  /** A part of the craft is missing: where it is not known whether the craft is armed, that is why. */
  readonly partMissing?: true;
  readonly adjusts: AdjustPicture;
}

/** The state of a mode after loss of the signal. `kept`: as it was; `either`: depends on what is not preset. */
export type OnLoss = "on" | "off" | "kept" | "either";

/** One more state: the signal is lost. */
export interface LossPicture {
  /** What the receiver does; null if the craft does not set it. */
  readonly receiver: "silent" | "hold" | "preset" | null;
  /** Null if it is not known. */
  readonly armed: OnLoss | null;
  readonly modes: readonly { readonly name: string; readonly becomes: OnLoss }[];
}

/** A mode or an output that the script sets up. */
export interface PanelMode {
  readonly name: string;
  readonly what: string;
  readonly lines: readonly LinePlace[];
  /** What turns it on, such as “TL down”: some if there are many, empty if nothing does, null if it is not known. */
  readonly ways: readonly string[] | null;
  /** Where they are not known because a condition is too tangled to follow: the name of the mode whose condition that is. */
  readonly tangled?: string;
}

/** What keeps the craft from arming, with the controls in their current positions. */
export interface ReadyPicture {
  readonly obstacles: readonly {
    /** `stands`: it keeps the craft from arming · `open`: it may do so · `wait`: it ends by itself. */
    readonly state: "stands" | "open" | "wait";
    readonly message: string;
    readonly at: LinePlace | null;
  }[];
  /** The fewest moves of controls that arm; empty if none is needed, null if no move arms or it is not known. */
  readonly moves: readonly { readonly name: string; readonly to: string | number }[] | null;
}

export interface SwitchesPicture {
  readonly handset: string | null;
  readonly controls: readonly PanelControl[];
  readonly state: SwitchesState;
  /** In the script's order. */
  readonly modes: readonly PanelMode[];
  readonly loss: LossPicture;
  readonly ready: ReadyPicture;
  /** The number of distinct sets of modes that the controls can reach; null if there are too many to count. */
  readonly states: number | null;
}

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
  /** The lost signal, phase by phase; absent at every other moment. */
  readonly signal?: SignalPicture;
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
  /** The view that is shown: the numbers are computed for their own view only. */
  readonly view?: ViewName;
  readonly positions?: ControlsAt;
  readonly scenario?: Scenario;
  readonly page?: OsdPage;
  /** Of a lost signal: the course and the phase that are shown. */
  readonly signal?: SignalStep;
  /** Shows the layout as it would be on this grid. */
  readonly fit?: Grid;
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
