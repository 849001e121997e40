/** Finds the names that were most likely meant by a misspelled one. */
import { distance } from "fastest-levenshtein";

export interface NameWithWords {
  readonly name: string;
  readonly words?: readonly string[];
}

/** No name is half as long; the limit keeps a malicious line from costing time. */
const MAX_LENGTH = 80;

/** The largest edit distance at which a name is still offered: one in three letters, at least one. */
function maxDistance(word: string): number {
  return Math.max(1, Math.floor(word.length / 3));
}

/** A name as it is compared: in small letters. */
interface Candidate {
  readonly name: string;
  readonly lower: string;
  readonly phrases: readonly string[];
}

/** By list: most lists are the catalogue's own, and are searched for every unknown name of a script. */
const candidateLists = new WeakMap<readonly (string | NameWithWords)[], readonly Candidate[]>();

function candidatesOf(names: readonly (string | NameWithWords)[]): readonly Candidate[] {
  let candidates = candidateLists.get(names);
  if (!candidates) {
    candidates = names.map((each) => {
      const { name, words = [] } = typeof each === "string" ? { name: each } : each;
      return { name, lower: name.toLowerCase(), phrases: words.map((phrase) => phrase.toLowerCase()) };
    });
    candidateLists.set(names, candidates);
  }
  return candidates;
}

/**
 * The names most similar to `word`, best first, at most `most`: by edit distance, and by the plain
 * words that the catalogue lists for a name.
 */
export function similarNames(word: string, names: readonly (string | NameWithWords)[], most = 3): string[] {
  if (word.length > MAX_LENGTH) return [];
  const lower = word.toLowerCase();
  const plain = lower.replaceAll("-", " ");
  const [mostOfName, mostOfPhrase] = [maxDistance(lower), maxDistance(plain)];
  const scored: { name: string; score: number }[] = [];
  for (const { name, lower: candidate, phrases } of candidatesOf(names)) {
    let score = isTransposition(lower, candidate) ? 1 : distanceWithin(lower, candidate, mostOfName);
    if (lower.length >= 3 && (name.startsWith(lower) || name.endsWith(`-${lower}`))) score = Math.min(score, 1.5);
    for (const phrase of phrases) {
      if (phrase === plain) score = Math.min(score, 0.5);
      else if (plain.length > 3 && distanceWithin(phrase, plain, mostOfPhrase) <= mostOfPhrase)
        score = Math.min(score, 2.5);
    }
    if (Number.isFinite(score)) scored.push({ name, score });
  }
  // A name that differs only in capitals was meant, however similar others are.
  const same = scored.filter(({ score }) => score === 0);
  if (same.length > 0) return same.map(({ name }) => name);
  scored.sort((a, b) => a.score - b.score || (a.name < b.name ? -1 : 1));
  return [...new Set(scored.map((each) => each.name))].slice(0, most);
}

/** The edit distance, or infinity above `most`: it is at least the difference in length, which costs nothing to know. */
function distanceWithin(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return Number.POSITIVE_INFINITY;
  const found = distance(a, b);
  return found <= most ? found : Number.POSITIVE_INFINITY;
}

/** The question at the end of a message, with a space before it: which of these was meant. Empty without names. */
export function didYouMean(offered: readonly string[]): string {
  return offered.length > 0 ? ` Did you mean ${offered.map((name) => `“${name}”`).join(" or ")}?` : "";
}

/** Whether two words differ only by two adjacent letters that are swapped: one typing error, not two. */
function isTransposition(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  return i + 1 < a.length && a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2);
}
