/** The questions from which a craft is made, the answers, and what comes of them: plain data. */

/** One answer that a question admits. */
export interface Choice {
  /** How it is written as an answer: a word, or the path of a file. */
  readonly word: string;
  readonly label: string;
  /** What speaks for it, in a few words. */
  readonly help: string;
  /** Admitted only where an earlier question was answered by one of these words. */
  readonly onlyWith?: { readonly question: string; readonly words: readonly string[] };
}

export interface Question {
  readonly id: string;
  readonly prompt: string;
  readonly choices: readonly Choice[];
  /** True where any number of choices may be taken, also none. */
  readonly many: boolean;
  /** The choice taken where nobody answers, given the answers before; null where that is none. */
  readonly usual: string | null;
}

/** Answers by the ids of their questions, and the craft's name as `name`. */
export type Answers = Readonly<Record<string, string | readonly string[]>>;

/** A file that was not offered or not used, and why, in a sentence. */
export interface LeftOut {
  readonly path: string;
  readonly why: string;
}

/** `fettle/newCraft` (client to server): the questions as the answers so far leave them, and the script. */
export const NEW_CRAFT_REQUEST = "fettle/newCraft";
export interface NewCraftParams {
  /** The folder in which the craft is to live; null where no folder is open, and then no files are offered. */
  readonly folder: string | null;
  readonly answers: Answers;
}
export interface NewCraftResult {
  readonly questions: readonly Question[];
  /** Files of the folder that are not offered. */
  readonly notOffered: readonly LeftOut[];
  readonly name: { readonly prompt: string; readonly usual: string };
  /** The script; null while a question is open, and where an answer is wrong. */
  readonly text: string | null;
  /** What is wrong with the answers, in a sentence. */
  readonly problem: string | null;
  /** Layers that were chosen and are not used. */
  readonly leftOut: readonly LeftOut[];
  /** Where the craft would be kept below the folder, such as `craft/jug.fettle`. */
  readonly path: string;
}
