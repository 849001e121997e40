/** Files that have another name now, found by what they hold. */
import { fileNameOf } from "../../text/file-name.ts";

/** A file by its path, with its text. */
export interface Text {
  readonly path: string;
  readonly text: string;
}

/** The part that two texts have to share for one to be the other under a new name: git's own measure (`git diff -M`). */
const LEAST_ALIKE = 0.5;

/** So many pairs are compared line by line; of more only those with the same name, as git does not look at them either. */
const MOST_PAIRS = 40_000;

/**
 * For each path that came, the path that went with the text most like it, where at least half of it is the same; of
 * equals the one with the same name. No text goes to two places.
 */
export function renamesBetween(went: readonly Text[], came: readonly Text[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const taken = new Set<string>();
  const take = (pairs: readonly Pair[]) => {
    for (const { from, to } of pairs) {
      if (found.has(to) || taken.has(from)) continue;
      found.set(to, from);
      taken.add(from);
    }
  };
  // Most are the same text under another name: those need no comparing.
  const byText = new Map<string, Text[]>();
  for (const each of went) byText.set(each.text, [...(byText.get(each.text) ?? []), each]);
  take(came.flatMap((to) => (byText.get(to.text) ?? []).map((from) => pairOf(from, to, 1))).sort(byLikeness));
  const [left, open] = [went.filter(({ path }) => !taken.has(path)), came.filter(({ path }) => !found.has(path))];
  const isTooMuch = left.length * open.length > MOST_PAIRS;
  const alike = open.flatMap((to) =>
    left
      .filter((from) => !isTooMuch || fileNameOf(from.path) === fileNameOf(to.path))
      .map((from) => pairOf(from, to, likeness(from, to))),
  );
  take(alike.filter((each) => each.alike >= LEAST_ALIKE).sort(byLikeness));
  return found;
}

interface Pair {
  readonly from: string;
  readonly to: string;
  readonly alike: number;
  readonly hasSameName: boolean;
}

function pairOf(from: Text, to: Text, alike: number): Pair {
  return { from: from.path, to: to.path, alike, hasSameName: fileNameOf(from.path) === fileNameOf(to.path) };
}

function byLikeness(a: Pair, b: Pair): number {
  return (
    b.alike - a.alike || Number(b.hasSameName) - Number(a.hasSameName) || compare(a.to, b.to) || compare(a.from, b.from)
  );
}

/** The share of the larger text that both hold, by whole lines. */
function likeness({ text: from }: Text, { text: to }: Text): number {
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
  return shared / (larger + 1);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
