/** What comes up by itself. */
export interface DocumentsEvents {
  /** The workspace has more folders or files than are listed. */
  listingCut(): void;
  /** The scripts and own words of the workspace are known, after answers had been given without them. */
  listedLate(): void;
  /** The scripts of the workspace are being read: so many are left. */
  reading(left: number): void;
  /** git was asked, and knows more of some craft, or something else. */
  pastsFound(): void;
  /** The craft were counted, and of some there is something else to say. */
  habitsFound(): void;
  /** Other craft than before are known to be flown together. */
  togetherFound(): void;
  /** Craft that are named to be flown together and are not there: a sentence each, or none. */
  togetherRefused(why: readonly string[]): void;
  failed(error: unknown): void;
}

/** Nobody listens. */
export const NO_EVENTS: DocumentsEvents = {
  listingCut() {},
  listedLate() {},
  reading() {},
  pastsFound() {},
  habitsFound() {},
  togetherFound() {},
  togetherRefused() {},
  failed() {},
};
