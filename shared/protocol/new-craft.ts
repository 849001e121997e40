/** The questions for a new craft, the answers, and the resulting script: plain data. */

import type { Uri } from "./addresses.ts";

/** One possible answer to a question. */
export interface Choice {
  /** The value of the answer: a word, or the path of a file. */
  readonly word: string;
  readonly label: string;
  /** Why one would choose it, in a few words. */
  readonly help: string;
  /** Offered only if an earlier question was answered with one of these words. */
  readonly onlyWith?: { readonly question: string; readonly words: readonly string[] };
}

export interface Question {
  readonly id: string;
  readonly prompt: string;
  readonly choices: readonly Choice[];
  /** True if any number of choices may be taken, also none. */
  readonly many: boolean;
  /** The choice that counts without an answer, given the answers before; null if there is none. */
  readonly usual: string | null;
}

/** Whether there is something to choose: a question with one choice answers itself. */
export function isAsked({ choices, many }: Question): boolean {
  return choices.length > (many ? 0 : 1);
}

/** The answer to the question of the link that asks for a new handset: whoever asks makes it first, and goes on with its path. */
export const NEW_HANDSET_WORD = "new-handset";

/** Answers by the ids of their questions, and the craft's name as `name`. */
export type Answers = Readonly<Record<string, string | readonly string[]>>;

/** A file that is not offered or not used, and the reason in a sentence. */
export interface LeftOut {
  readonly path: string;
  readonly why: string;
}

/** `fettle/newCraft` (client to server): the questions that remain after the answers so far, and the script. */
export const NEW_CRAFT_REQUEST = "fettle/newCraft";
export interface NewCraftParams {
  /** The folder for the craft; null if no folder is open, and then no files are offered. */
  readonly folder: Uri | null;
  readonly answers: Answers;
}
export interface NewCraftResult {
  readonly questions: readonly Question[];
  /** Files of the folder that are not offered. */
  readonly notOffered: readonly LeftOut[];
  readonly name: { readonly prompt: string; readonly usual: string };
  /** The script; null while a question is open, and if an answer is wrong. */
  readonly text: string | null;
  /** What is wrong with the answers, in a sentence. */
  readonly problem: string | null;
  /** Layers that were chosen and are not used. */
  readonly leftOut: readonly LeftOut[];
  /** The path for the craft in the folder, such as `craft/jug.fettle`. */
  readonly path: string;
}
