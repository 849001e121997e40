/** What is known of the pictures of craft that are flown at the same time. */
import type { FilePath } from "./files.ts";

/** A craft's video transmitter, as its script has it; null for what is not said or not known. */
export interface FlownCraft {
  readonly file: FilePath;
  readonly name: string;
  readonly signal: "analogue" | "digital" | null;
  /** Null also where nothing is sent. */
  readonly carrierMhz: number | null;
  /** Of a digital picture what is said. */
  readonly widthMhz: number | null;
  readonly spareMhz: number | null;
  readonly region: string | null;
  /** The value of the line that says the carrier. */
  readonly at: { readonly file: FilePath; readonly line: number; readonly start: number; readonly end: number } | null;
}
