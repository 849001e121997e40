/** Files that have another name now, found by what they hold. */

/** A file by its path, with its text. */
export interface Text {
  readonly path: string;
  readonly text: string;
}

/** The part that two texts have to share for one to be the other under a new name: git's own measure (`git diff -M`). */
const LEAST_ALIKE = 0.5;

/**
 * For each path that came, the path that went with the text most like it, where at least half of it is the same; of
 * equals the one with the same name. No text goes to two places.
 */
export function renamesBetween(went: readonly Text[], came: readonly Text[]): ReadonlyMap<string, string> {
  const pairs = came
    .flatMap((to) => went.map((from) => ({ from: from.path, to: to.path, alike: likeness(from, to) })))
    .filter(({ alike }) => alike >= LEAST_ALIKE)
    .sort((a, b) => b.alike - a.alike || Number(sameBase(b)) - Number(sameBase(a)) || compare(a.to, b.to));
  const found = new Map<string, string>();
  const taken = new Set<string>();
  for (const { from, to } of pairs) {
    if (found.has(to) || taken.has(from)) continue;
    found.set(to, from);
    taken.add(from);
  }
  return found;
}

/** The share of the larger text that both hold, by whole lines: 1 for the same text. */
function likeness({ text: from }: Text, { text: to }: Text): number {
  if (from === to) return 1;
  const larger = Math.max(from.length, to.length);
  // What is less than half as long shares less than half.
  if (larger === 0 || Math.min(from.length, to.length) < LEAST_ALIKE * larger) return 0;
  const counts = new Map<string, number>();
  for (const line of from.split("\n")) counts.set(line, (counts.get(line) ?? 0) + 1);
  let shared = 0;
  for (const line of to.split("\n")) {
    const count = counts.get(line) ?? 0;
    if (count === 0) continue;
    counts.set(line, count - 1);
    shared += line.length + 1;
  }
  return Math.min(0.999, shared / (larger + 1));
}

function sameBase({ from, to }: { readonly from: string; readonly to: string }): boolean {
  return baseOf(from) === baseOf(to);
}

/** The name of a file without its folder. */
export function baseOf(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
