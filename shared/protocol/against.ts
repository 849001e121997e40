/**
 * The other side of a comparison as the panel shows it with the craft that is drawn: plain data. In all its words the
 * craft that is drawn is “here”, and the other side is “there”.
 */
import type { GogglesPicture } from "./goggles.ts";
import type { RatesPicture } from "./numbers.ts";
import type { LossPicture, PanelControl, PanelMode, SwitchesState } from "./switches.ts";

/** Whether one side shows something: in cells, only as a line that gives it no cell (it has a fault), or not at all. */
export type SideHas = "drawn" | "said" | "nothing";

/** An element that is not in the same place here and there. Those that are in the same place have no mark. */
export interface ElementMark {
  readonly name: string;
  readonly here: SideHas;
  readonly there: SideHas;
}

export interface GogglesAgainst {
  /** The same page as it looks there, at the same moment. */
  readonly picture: GogglesPicture;
  readonly marks: readonly ElementMark[];
  /** What else is to be known of both pictures, a sentence each: another grid, another shape of the picture. */
  readonly notes: readonly string[];
}

/** What a place of a control turns on there and not here, or the other way round. */
export interface PlaceChange {
  /** Modes that it can turn on there only. */
  readonly added: readonly string[];
  /** Modes that it can turn on here only. */
  readonly gone: readonly string[];
  /** Modes that it can turn on here and there, together with other positions of other controls. */
  readonly otherwise: readonly string[];
}

export interface ControlAgainst {
  readonly name: string;
  readonly has: "both" | "only here" | "only there";
  /** The control there; null where it is only here. */
  readonly there: PanelControl | null;
  /** Positions that do something else there. */
  readonly positions: readonly (PlaceChange & { readonly name: string })[];
  /** Of a dial: parts of its range that do something else there, in the order of the dial here. */
  readonly spans: readonly (PlaceChange & { readonly fromUs: number; readonly toUs: number })[];
  /** What else differs, such as its channel, a phrase each. */
  readonly notes: readonly string[];
}

/** A mode or an output that is not on in the same states here and there. */
export interface ModeAgainst {
  readonly name: string;
  /** `unsure`: it is written otherwise, and whether it is on in the same states cannot be followed. */
  readonly is: "differs" | "unsure" | "only here" | "only there";
  /** From here to there, in words, such as “arm moves from TL down to TR up”. */
  readonly words: string;
  readonly there: PanelMode | null;
}

export interface SwitchesAgainst {
  /** The state there, with the controls in the positions that are simulated here. */
  readonly state: SwitchesState;
  readonly loss: LossPicture;
  /** Those with a difference: of here in the order of here, then those that are only there. */
  readonly controls: readonly ControlAgainst[];
  readonly modes: readonly ModeAgainst[];
  /** What is to be known of the comparison, a sentence each: other controls, positions that are not there. */
  readonly notes: readonly string[];
}

/** What differs in what the numbers draw. */
export interface NumbersAgainst {
  /** The rates there; null where none of them differ, or there are none. */
  readonly rates: RatesPicture | null;
  readonly secondRates: RatesPicture | null;
  /** Every difference of rates, packs, filters and the loop, from here to there, a sentence each. */
  readonly words: readonly string[];
}

/** Both pictures of everything that the panel draws. */
export interface AgainstPictures {
  readonly kind: "pictures";
  /** What the other side is called. */
  readonly name: string;
  /** Where it is from, such as a path; empty where the name says it. */
  readonly from: string;
  /** What is to be known of the other side, a sentence each: parts that are missing, a handset that stands in. */
  readonly notes: readonly string[];
  readonly goggles: GogglesAgainst | null;
  /** Why there is no picture of this page there, in a sentence; null if there is one, or none here either. */
  readonly noGoggles: string | null;
  readonly switches: SwitchesAgainst | null;
  readonly noSwitches: string | null;
  /** Null while the numbers are not shown. */
  readonly numbers: NumbersAgainst | null;
}

/** The other side, or why there is none, in a sentence. */
export type Against = AgainstPictures | { readonly kind: "none"; readonly message: string };
