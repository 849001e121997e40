/**
 * How much is tried under fire, and from which seed: as much as `npm test` has time for, or as `npm run fire` was told
 * by its flags. A case is made of the seed and of its own number alone, so it can be made again by itself.
 */

/** The seed of a run: what `--seed` says. */
export const SEED = numberOf("FETTLE_FIRE_SEED") ?? 13;

/** How many cases a run has: what `--cases` says, else that many. */
export function casesOr(usual: number): number {
  return numberOf("FETTLE_FIRE_CASES") ?? usual;
}

/** How long a run may take in milliseconds: what `--minutes` says, else so many seconds. */
export function lastsMsOr(usualSeconds: number): number {
  const minutes = numberOf("FETTLE_FIRE_MINUTES");
  return minutes === undefined ? usualSeconds * 1000 : minutes * 60_000;
}

/** The number of the case that is tried alone, as a failure names it: what `--only` says; null: all are tried. */
export const ONLY = numberOf("FETTLE_FIRE_ONLY") ?? null;

function numberOf(name: string): number | undefined {
  const text = process.env[name];
  return text === undefined ? undefined : Number(text);
}
