/** Which words of codes mean something where they are used: one that fits nowhere is told at the word itself. */
import type { Fault } from "../../syntax/read-context.ts";
import type { Code } from "../dialect.ts";
import type { OursOf, Sample } from "./spellings.ts";

export interface UnfitWord extends OursOf {
  /** Why it did not fit in the first place where it could stand. */
  readonly fault: Fault;
}

export interface WordsTaken {
  /** The words mean something in this place. */
  take(words: readonly OursOf[]): void;
  /** They do not, and why. */
  refuse(words: readonly OursOf[], fault: Fault): void;
  /**
   * Decides where it is told that none of the samples fits: true where it is told at the one word that they are made
   * of; else the place is at fault, and nothing is told of the words.
   */
  tell(samples: readonly Sample[], fault: Fault): boolean;
  /** Words that fit nowhere. */
  unfit(): readonly UnfitWord[];
}

export function wordsTaken(): WordsTaken {
  const taken = new Map<Code, Set<string>>();
  const refused = new Map<Code, Map<string, UnfitWord>>();
  const take = (words: readonly OursOf[]) => {
    for (const { code, ours } of words) taken.set(code, (taken.get(code) ?? new Set()).add(ours));
  };
  return {
    take,
    refuse(words, fault) {
      for (const word of words) {
        const known = refused.get(word.code) ?? new Map<string, UnfitWord>();
        refused.set(word.code, known);
        if (!known.has(word.ours)) known.set(word.ours, { ...word, fault });
      }
    },
    tell(samples, fault) {
      const ours = new Set(samples.flatMap(({ words }) => words.map((word) => word.ours)));
      if (fault.code === "unknown-name" && ours.size === 1 && samples.every(({ words }) => words.length > 0))
        return true;
      for (const { words } of samples) take(words);
      return false;
    },
    unfit: () =>
      [...refused].flatMap(([code, words]) => [...words.values()].filter(({ ours }) => !taken.get(code)?.has(ours))),
  };
}
