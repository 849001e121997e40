/** The questions for a new handset, the answers, and the resulting script: plain data. */
import type { Uri } from "./addresses.ts";
import type { Answers, LeftOut, Question } from "./new-craft.ts";

/** A question with choices, with an answer that is typed, or with both. */
export interface HandsetQuestion extends Question {
  /** How an answer of one's own is typed, as an example; null where only a choice counts. */
  readonly typed: string | null;
}

/**
 * `fettle/newHandset` (client to server): the question that follows the answers so far, or the script. Answers of a
 * control have the ids `control-1.kind`, `control-1.name` and so on.
 */
export const NEW_HANDSET_REQUEST = "fettle/newHandset";
export interface NewHandsetParams {
  /** The folder for the handset; null if no folder is open, and then no files are offered. */
  readonly folder: Uri | null;
  readonly answers: Answers;
}
export interface NewHandsetResult {
  /** The next question; null when all are answered, or where an answer is wrong. */
  readonly question: HandsetQuestion | null;
  /** The answer that is wrong, by its id, and why, in a sentence. */
  readonly problem: { readonly id: string; readonly message: string } | null;
  /** The controls so far, in a few words each: “TL on ch5”. */
  readonly controls: readonly string[];
  /** Files of the folder that are not offered. */
  readonly notOffered: readonly LeftOut[];
  /** The script; null while a question is open. */
  readonly text: string | null;
  /** What is to be done next, in sentences. */
  readonly next: readonly string[];
  /** The sticks in the order of their channels, for a craft's `link.order`; null where it is not known. */
  readonly order: string | null;
  /** The path for the handset in the folder, such as `handsets/wheel.fettle`. */
  readonly path: string;
}
