/** How craft that are flown with one handset turn their modes on: plain data for a rule, worked out elsewhere. */
/** Where the hand finds a mode. */
export interface HabitPlace {
  /** Equal for places that are one to the hand. */
  readonly key: string;
  /** Each way in which the mode comes on: by control, where it must be. */
  readonly ways: readonly ReadonlyMap<string, readonly string[]>[];
  /** Such as `TL down`, or `FL up or PB held`. */
  readonly words: string;
}

/** The craft on which a mode is found at one place. */
export interface HabitVote {
  readonly place: HabitPlace;
  readonly count: number;
  /** The first of them in order of path: one more than are told, as the one that is told is not told of itself. */
  readonly first: readonly { readonly file: string; readonly name: string }[];
}

/** What is known of all craft with one handset. */
export interface SharedHabits {
  /** By mode; craft that do not set it up, or of which it is not known, have no vote. */
  readonly votes: ReadonlyMap<string, readonly HabitVote[]>;
  /** The places of conditions that were looked at, by their meaning as `habitTexts` gives it. */
  readonly places: ReadonlyMap<string, HabitPlace | null>;
}

/** What a rule may know of the others, asked for one craft. */
export interface FleetHabits extends SharedHabits {
  /** The path of its file. */
  readonly handset: string;
  /** By mode, the place for which this craft is counted in `votes`. */
  readonly own: ReadonlyMap<string, HabitPlace>;
  /** Equal for as long as nothing has changed that a finding about this craft, as it was counted, would say. */
  readonly id: string;
}
