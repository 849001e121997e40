/** The picture in the goggles: plain data. */
import type { LinePlace, Severity } from "./findings.ts";
import type { Grid, OsdPage, Scenario } from "./osd.ts";
import type { WayOn } from "./ways.ts";

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
  readonly sharedWith: Sharing;
  /** What is found of it, such as a port or a sensor that it needs and the craft does not have. */
  readonly faults: readonly ElementFault[];
}

/** Other craft: a few by their names, and how many there are besides. */
export interface Sharing {
  readonly named: readonly string[];
  readonly more: number;
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
