/** The controls of a handset and what they do: plain data. */
import type { AdjustPicture } from "./adjust.ts";
import type { LinePlace } from "./findings.ts";

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
