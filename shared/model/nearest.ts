/** The name a pilot most likely meant. */
import { distance } from "fastest-levenshtein";

export interface Named {
  readonly name: string;
  readonly words?: readonly string[];
}

/** Most slips that a name may be away and still be offered: one in three letters, at least one. */
function mostSlips(word: string): number {
  return Math.max(1, Math.floor(word.length / 3));
}

/**
 * The names nearest to `word`, best first, at most `most`: by spelling, and by the plain words
 * under which the catalogue lists a thing.
 */
export function nearest(word: string, names: readonly (string | Named)[], most = 3): string[] {
  const wanted = word.toLowerCase();
  const plain = wanted.replaceAll("-", " ");
  const scored: { name: string; score: number }[] = [];
  for (const each of names) {
    const { name, words = [] } = typeof each === "string" ? { name: each } : each;
    const spelled = distance(wanted, name.toLowerCase());
    let score = spelled <= mostSlips(wanted) ? spelled : Number.POSITIVE_INFINITY;
    if (wanted.length >= 3 && (name.startsWith(wanted) || name.endsWith(`-${wanted}`))) score = Math.min(score, 1.5);
    for (const said of words) {
      const low = said.toLowerCase();
      if (low === plain) score = Math.min(score, 0.5);
      else if (distance(low, plain) <= mostSlips(plain) && plain.length > 3) score = Math.min(score, 2.5);
    }
    if (Number.isFinite(score)) scored.push({ name, score });
  }
  scored.sort((a, b) => a.score - b.score || (a.name < b.name ? -1 : 1));
  return [...new Set(scored.map((each) => each.name))].slice(0, most);
}
