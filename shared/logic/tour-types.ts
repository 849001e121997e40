/** A tour of the controls: movements, one after another, that show all that the controls can do. */

type Place = string | number;

/** What a tour needs to know that the conditions do not say. */
export interface TourWish {
  /** Channels without a control that the pilot moves all the same, since a stick drives them, with the pulse in us at which it rests. */
  readonly sticks?: readonly TourStick[];
  /** Controls in the order in which the hand finds them; without it in the handset's order. */
  readonly order?: readonly string[];
}

export interface TourStick {
  readonly channel: number;
  readonly restUs: number;
  /** It springs back to where it rests once it is let go. */
  readonly springs: boolean;
}

/** One control put from one position to another; what it passes on the way does not count. */
export interface TourMove {
  /** A control; of a stick its channel, as `ch3`. */
  readonly name: string;
  /** A position; of a dial or a stick a pulse in us. */
  readonly from: Place;
  readonly to: Place;
  /** Modes and outputs that are on then. */
  readonly on: readonly string[];
  /** Those that may be: a channel that no control drives decides, or a position that arrives as one of two. */
  readonly possible: readonly string[];
  readonly comesOn: readonly string[];
  readonly goesOff: readonly string[];
  /** Whether the switches arm the craft then. */
  readonly armed: "yes" | "no" | "depends";
}

/** Where a tour begins, and what is on there. */
export interface TourStart extends Pick<TourMove, "on" | "possible" | "armed"> {
  readonly positions: Readonly<Record<string, Place>>;
}

export interface Tour {
  /** Every control at rest, a dial at the end that its range names first unless the craft is armed there. */
  readonly start: TourStart;
  readonly moves: readonly TourMove[];
  /** Whether no tour has fewer movements; false where proving it exceeds the budget. */
  readonly isShortest: boolean;
  /** Modes that nothing turns off, on the whole of the tour. */
  readonly always: readonly string[];
  /** Modes that nothing turns on. */
  readonly never: readonly string[];
  /** Modes that the controls alone do not decide, so that a tour cannot show them as on, or not as off. */
  readonly undecided: readonly UndecidedMode[];
  /** Modes whose condition is not known. */
  readonly unknown: readonly string[];
}

export interface UndecidedMode {
  readonly name: string;
  /** What a tour does not show. */
  readonly unseen: "on" | "off" | "both";
  /** Channels on which that depends and which nobody moves; empty where it depends on how a position arrives. */
  readonly channels: readonly number[];
}
