/** Names found by a plain description, as a pilot would say it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { NamedPage } from "./names.ts";

/** A name with all that is said of it. */
export interface Described extends NamedPage {
  /** Plain words by which the catalogue, or the pilot, lists it. */
  readonly words: readonly string[];
  readonly why: string;
}

/** What a word weighs by where it stands: the name and the words say most. */
const WEIGHTS = { name: 3, words: 3, summary: 2, why: 0.5 } as const;

/** What fits this share as well as the best may be what is meant. */
const NEARLY = 0.6;

/** Words that say nothing of what is meant: all of it is of some craft. */
export const EMPTY_WORDS = new Set(
  "a an and are at be by can copter do does drone for from goes has have how i in is it its many me much my no not of off on or quad so that the then this to too up what when where which who why will with won wont".split(
    " ",
  ),
);

/**
 * The names that a description fits, best first, at most `most`: those of which every word is said,
 * and which fit nearly as well as the best. A second set yields to the first.
 */
export function findDescribed(
  catalogue: Catalogue,
  text: string,
  all: readonly Described[],
  most: number,
): Described[] {
  const query = tokens(text);
  const first = all.filter(({ name, kind }) => kind !== "setting" || !catalogue.section(name.split(".")[0]!)?.like);
  let found = scored(first, query);
  // One word of several may be the pilot's own: what fits all others is better than nothing.
  if (found.length === 0 && query.length > 2)
    for (const [i] of query.entries()) {
      const fewer = scored(first, query.toSpliced(i, 1));
      if ((fewer[0]?.score ?? 0) > (found[0]?.score ?? 0)) found = fewer;
    }
  const best = found[0]?.score ?? 0;
  return found
    .filter(({ score }) => score >= best * NEARLY)
    .slice(0, most)
    .map(({ each }) => each);
}

interface Scored {
  readonly each: Described;
  readonly score: number;
}

/** What every word fits, best first; of two that fit alike the shorter name. */
function scored(all: readonly Described[], query: readonly string[]): Scored[] {
  if (query.length === 0) return [];
  return all
    .map((each) => ({ each, score: scoreOf(each, query) }))
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.each.name.length - b.each.name.length);
}

/** Nothing where some word is nowhere; a phrase of the catalogue's own that says them all counts for more. */
function scoreOf({ name, kind, words, summary, why }: Described, query: readonly string[]): number {
  // From what says most to what says least: the first place in which a word stands is the one that counts.
  const where = [
    { of: () => cachedTokens(name), weight: WEIGHTS.name },
    { of: () => words.flatMap(cachedTokens), weight: WEIGHTS.words },
    { of: () => cachedTokens(summary), weight: WEIGHTS.summary },
    { of: () => cachedTokens(why), weight: WEIGHTS.why },
  ];
  let sum = 0;
  for (const word of query) {
    const place = where.find(({ of }) => of().some((each) => alike(each, word)));
    if (!place) return 0;
    sum += place.weight;
  }
  const says = (phrase: readonly string[]) => query.every((word) => phrase.some((each) => alike(each, word)));
  const phrased = words.some((phrase) => says(cachedTokens(phrase))) || says(cachedTokens(name));
  // A section has something to do with much; one thing in it is rather what is meant.
  return sum * (phrased ? 1.5 : 1) * (kind === "section" ? 0.7 : 1);
}

const tokensKnown = new Map<string, readonly string[]>();

/** The tokens of a text of the catalogue, which is asked for them again and again. */
function cachedTokens(text: string): readonly string[] {
  let known = tokensKnown.get(text);
  if (!known) {
    known = tokens(text);
    tokensKnown.set(text, known);
  }
  return known;
}

function tokens(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^a-z0-9/%]+/)
    .filter((word) => word.length > 1 && !EMPTY_WORDS.has(word));
}

/** Whether a word said of something is the one asked for, or another form of it: “flips” for “flip”, “maximum” for “max”. */
function alike(word: string, asked: string): boolean {
  if (word === asked) return true;
  if (asked.length === 3) return word.startsWith(asked) && word.length <= 7;
  const stem = Math.max(4, Math.min(word.length, asked.length) - 3);
  return (
    Math.min(word.length, asked.length) >= 4 &&
    word.slice(0, stem) === asked.slice(0, stem) &&
    Math.abs(word.length - asked.length) <= 3
  );
}
