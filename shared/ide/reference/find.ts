/** Finds names by a plain description. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { NamedPage } from "./page-names.ts";

/** A name with the texts that describe it. */
export interface Described extends NamedPage {
  /** Plain words for it, from the catalogue or the pilot's own files. */
  readonly words: readonly string[];
  readonly why: string;
}

/** The weight of a matching word by where it occurs. */
const WEIGHTS = { name: 3, words: 3, summary: 2, why: 0.5 } as const;

/** Results with at least this share of the best score are listed. */
const NEARLY = 0.6;

/** Words that are ignored in a description: stop words, and words for any craft. */
export const EMPTY_WORDS = new Set(
  "a an and are at be by can copter do does drone for from goes has have how i in is it its many me much my no not of off on or quad so that the then this to too up what when where which who why will with won wont".split(
    " ",
  ),
);

/**
 * The names that a description fits, best first, at most `most`: those in which every word occurs,
 * and whose score is near the best. Of a second set, only the first set's names are searched.
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
  // If nothing fits, one of several words may be unknown: search for the best match of all others.
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

/** The names in which every word occurs, best first; of equal scores, the shorter name first. */
function scored(all: readonly Described[], query: readonly string[]): Scored[] {
  if (query.length === 0) return [];
  return all
    .map((each) => ({ each, score: scoreOf(each, query) }))
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.each.name.length - b.each.name.length);
}

/** 0 if any word does not occur; higher if one phrase of the catalogue has all of them. */
function scoreOf({ name, kind, words, summary, why }: Described, query: readonly string[]): number {
  // By falling weight: the first place in which a word occurs counts.
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
  // A section matches many descriptions; an entry in it is more often meant.
  return sum * (phrased ? 1.5 : 1) * (kind === "section" ? 0.7 : 1);
}

const tokensKnown = new Map<string, readonly string[]>();

/** The tokens of a text of the catalogue, cached, since every search needs them. */
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

/** True if a word is the one asked for or another form of it: “flips” for “flip”, “maximum” for “max”. */
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
