/** What writing a craft as board text gives. */
import type { CurveDeviation } from "../read/reading.ts";

export interface Written {
  /** The whole text: the base with what the craft changes. Line ends and the encoding of the base are the caller's. */
  readonly text: string;
  /** The lines that changed, with their headings, opening and closing; "" where nothing changed. */
  readonly changes: string;
  /** Values that the board holds in steps: what the craft says and what the board will. */
  readonly rounded: readonly { readonly what: string; readonly said: string; readonly written: string }[];
  /** Fields that nobody says, and what stands there. */
  readonly filled: readonly { readonly what: string; readonly value: string; readonly why: string }[];
  /** What the craft says and the dialect has no line for, as `SECTION NAME`; without what it `cannot`. */
  readonly unsaid: readonly string[];
  /** Settings that only the base says: they stay. */
  readonly onlyBase: readonly string[];
  /** Lines that went, as the board cannot be told to forget them: to be cleared by hand. */
  readonly byHand: readonly string[];
  /** What was not written although there is a line for it, and why; for a condition a state in which board and craft differ. */
  readonly cannot: readonly {
    readonly what: string;
    readonly why: string;
    readonly positions: Readonly<Record<string, string | number>> | null;
  }[];
  readonly curves: readonly CurveDeviation[];
  /** Where it is said that something is not proven: a condition with more than 12 candidate lines. */
  readonly notes: readonly string[];
}
