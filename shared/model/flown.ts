/** What is known of the pictures of craft that are flown at the same time. */

/** A craft's video transmitter, as its script has it; null for what is not said or not known. Files by their paths (`FilePath`). */
export interface FlownCraft {
  readonly file: string;
  readonly name: string;
  readonly signal: "analogue" | "digital" | null;
  /** Null also where nothing is sent. */
  readonly carrierMhz: number | null;
  /** Of a digital picture what is said. */
  readonly widthMhz: number | null;
  readonly spareMhz: number | null;
  readonly region: string | null;
  /** The value of the line that says the carrier. */
  readonly at: { readonly file: string; readonly line: number; readonly start: number; readonly end: number } | null;
}
