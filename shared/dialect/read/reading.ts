/** What reading a board's text gives. */
import type { Script } from "../../model/script.ts";
import type { Cols } from "../../syntax/span.ts";

/**
 * `read`: its meaning is in the script. `odd`: a line of the dialect fits but for a value, or it is half of an entry,
 * beyond a hard limit, or said again below. `kept`: no line of the dialect fits. `idle`: blank, comment, opening,
 * closing or heading.
 */
export type LineState = "read" | "odd" | "kept" | "idle";

/** One line of the board's text, without its line end. Every line has exactly one state. */
export interface ReadLine {
  /** From 0. */
  readonly line: number;
  readonly state: LineState;
  /** The lines of the dialect, from 0, by which it was read or is odd; empty for others. */
  readonly by: readonly number[];
  /** What it says in our words, `SECTION NAME VALUE` each; the first line of an entry that several lines say together has it, and the others too. */
  readonly says: readonly string[];
  /** For an odd line, and for a read one that is also kept verbatim: why, in a sentence. */
  readonly why: string | null;
  /** Where its slots lie in the line, with what each means in our words. */
  readonly slots: readonly (Cols & { readonly name: string; readonly means: string })[];
}

export interface Reading {
  readonly lines: readonly ReadLine[];
  /** The script that the text becomes, with header, sections in the catalogue's order and `verbatim`. */
  readonly script: string;
  /** The same, read. */
  readonly read: Script;
  /** For each line of the script the lines of the board's text from which it comes, from 0; none for headers. */
  linesOf(scriptLine: number): readonly number[];
  /** A sentence each: what was assumed, what cannot be known. */
  readonly notes: readonly string[];
  readonly curves: readonly CurveDeviation[];
}

/** The largest difference between the board's curve and ours over the stick. */
export interface CurveDeviation {
  /** `SECTION NAME` */
  readonly what: string;
  readonly deviationDegS: number;
}
