/** The name a pilot most likely meant. */
import { distance } from "fastest-levenshtein";

export interface NameWithWords {
  readonly name: string;
  readonly words?: readonly string[];
}

/** No name is half as long; the bound keeps a hostile line from being compared letter by letter. */
const MAX_LENGTH = 80;

/** Most slips that a name may be away and still be offered: one in three letters, at least one. */
function maxDistance(word: string): number {
  return Math.max(1, Math.floor(word.length / 3));
}

/**
 * The names nearest to `word`, best first, at most `most`: by spelling, and by the plain words
 * under which the catalogue lists a thing.
 */
export function similarNames(word: string, names: readonly (string | NameWithWords)[], most = 3): string[] {
  if (word.length > MAX_LENGTH) return [];
  const lower = word.toLowerCase();
  const plain = lower.replaceAll("-", " ");
  const scored: { name: string; score: number }[] = [];
  for (const each of names) {
    const { name, words = [] } = typeof each === "string" ? { name: each } : each;
    const spelled = isTransposition(lower, name.toLowerCase()) ? 1 : distance(lower, name.toLowerCase());
    let score = spelled <= maxDistance(lower) ? spelled : Number.POSITIVE_INFINITY;
    if (lower.length >= 3 && (name.startsWith(lower) || name.endsWith(`-${lower}`))) score = Math.min(score, 1.5);
    for (const phrase of words) {
      const lowerPhrase = phrase.toLowerCase();
      if (lowerPhrase === plain) score = Math.min(score, 0.5);
      else if (distance(lowerPhrase, plain) <= maxDistance(plain) && plain.length > 3) score = Math.min(score, 2.5);
    }
    if (Number.isFinite(score)) scored.push({ name, score });
  }
  // What differs in nothing but capitals is what was meant, however near others come.
  const same = scored.filter(({ score }) => score === 0);
  if (same.length > 0) return same.map(({ name }) => name);
  scored.sort((a, b) => a.score - b.score || (a.name < b.name ? -1 : 1));
  return [...new Set(scored.map((each) => each.name))].slice(0, most);
}

/** The question behind a message, with the blank before it: which of these was meant. Empty where nothing is offered. */
export function didYouMean(offered: readonly string[]): string {
  return offered.length > 0 ? ` Did you mean ${offered.map((name) => `“${name}”`).join(" or ")}?` : "";
}

/** Whether two words differ only by two neighbouring letters that changed places: one slip of the fingers, not two. */
function isTransposition(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  return i + 1 < a.length && a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2);
}
