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

/** Whether a name is near enough in spelling to have been meant by a word. */
export function isAlike(word: string, name: string): boolean {
  const [a, b] = [word.toLowerCase(), name.toLowerCase()];
  return isTransposition(a, b) || distance(a, b) <= maxDistance(a);
}

/** A text in small letters, with a bit for each letter in it. */
interface Spelling {
  readonly text: string;
  readonly letters: number;
}

/** A name as it is compared. */
interface Candidate {
  readonly name: string;
  readonly spelling: Spelling;
  readonly phrases: readonly Spelling[];
}

function spellingOf(text: string): Spelling {
  const lower = text.toLowerCase();
  let letters = 0;
  for (let i = 0; i < lower.length; i++) {
    const letter = lower.charCodeAt(i) - 97;
    // One bit for all that is no letter from a to z.
    letters |= 1 << (letter >= 0 && letter < 26 ? letter : 26);
  }
  return { text: lower, letters };
}

/** By list: most lists are the catalogue's own, and are searched for every unknown name of a script. */
const candidateLists = new WeakMap<readonly (string | NameWithWords)[], readonly Candidate[]>();

function candidatesOf(names: readonly (string | NameWithWords)[]): readonly Candidate[] {
  let candidates = candidateLists.get(names);
  if (!candidates) {
    candidates = names.map((each) => {
      const { name, words = [] } = typeof each === "string" ? { name: each } : each;
      return { name, spelling: spellingOf(name), phrases: words.map(spellingOf) };
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
  const spelling = spellingOf(word);
  const lower = spelling.text;
  const plain = spellingOf(lower.replaceAll("-", " "));
  const mostEdits = maxDistance(lower);
  const scored: { name: string; score: number }[] = [];
  for (const { name, spelling: candidate, phrases } of candidatesOf(names)) {
    let score = isTransposition(lower, candidate.text) ? 1 : distanceWithin(spelling, candidate, mostEdits);
    if (lower.length >= 3 && (name.startsWith(lower) || name.endsWith(`-${lower}`))) score = Math.min(score, 1.5);
    for (const phrase of phrases) {
      if (phrase.text === plain.text) score = Math.min(score, 0.5);
      else if (lower.length > 3 && distanceWithin(phrase, plain, mostEdits) <= mostEdits) score = Math.min(score, 2.5);
    }
    if (Number.isFinite(score)) scored.push({ name, score });
  }
  // A name that differs only in capitals was meant, however similar others are.
  const same = scored.filter(({ score }) => score === 0);
  if (same.length > 0) return same.map(({ name }) => name);
  scored.sort((a, b) => a.score - b.score || (a.name < b.name ? -1 : 1));
  return [...new Set(scored.map((each) => each.name))].slice(0, most);
}

/**
 * The edit distance, or infinity above `most`. It is at least the difference in length, and at least
 * the number of letters that only one of the two has: both cost next to nothing to know.
 */
function distanceWithin(a: Spelling, b: Spelling, most: number): number {
  if (Math.abs(a.text.length - b.text.length) > most) return Number.POSITIVE_INFINITY;
  if (bits(a.letters & ~b.letters) > most || bits(b.letters & ~a.letters) > most) return Number.POSITIVE_INFINITY;
  const found = distance(a.text, b.text);
  return found <= most ? found : Number.POSITIVE_INFINITY;
}

/** How many bits of a number are set. */
function bits(number: number): number {
  let count = 0;
  for (let rest = number; rest !== 0; rest &= rest - 1) count++;
  return count;
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

/**
 * Whether a single name was meant and only written in another form: with capitals or with `_` for `-`. A name that has
 * capitals itself, as a control or a unit, may only have lost them: `MW` is no `mW`.
 */
export function isOnlyForm(word: string, offered: readonly string[]): boolean {
  const [name, ...others] = offered;
  if (name === undefined || others.length > 0) return false;
  const plain = word.toLowerCase().replaceAll("_", "-");
  return plain === name.toLowerCase() && (name === name.toLowerCase() || word === word.toLowerCase());
}
