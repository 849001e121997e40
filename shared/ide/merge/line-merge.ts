/** A merge of lines that are not understood, as git merges any text. */
import { partnersOf } from "./align.ts";
import { isSameText, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";

/**
 * Merges lines (Khanna, Kunal, Pierce: A Formal Investigation of Diff3, 2007; stretches that touch clash, as they do
 * in git). What both sides did alike is taken once. Of a conflict the lines that both sides have alike at its ends
 * stand outside of the marks, but for the style `diff3`, which keeps them.
 */
export function mergeLines(
  base: readonly Row[],
  ours: readonly Row[],
  theirs: readonly Row[],
  style: Marks["style"],
): Piece[] {
  const toOurs = partnersOf(textsOf(base), textsOf(ours));
  const toTheirs = partnersOf(textsOf(base), textsOf(theirs));
  const pieces: Piece[] = [];
  let [b, o, t] = [0, 0, 0];
  while (b < base.length || o < ours.length || t < theirs.length) {
    // Lines that all three have, one after the other.
    let stable = 0;
    while (b + stable < base.length && toOurs[b + stable] === o + stable && toTheirs[b + stable] === t + stable)
      stable++;
    if (stable > 0) {
      pieces.push(rowsPiece(ours.slice(o, o + stable)));
      [b, o, t] = [b + stable, o + stable, t + stable];
      continue;
    }
    let next = b;
    while (next < base.length && (toOurs[next]! < 0 || toTheirs[next]! < 0)) next++;
    const [toO, toT] = next < base.length ? [toOurs[next]!, toTheirs[next]!] : [ours.length, theirs.length];
    pieces.push(...mergedStretch(base.slice(b, next), ours.slice(o, toO), theirs.slice(t, toT), style));
    [b, o, t] = [next, toO, toT];
  }
  return pieces;
}

function mergedStretch(
  base: readonly Row[],
  ours: readonly Row[],
  theirs: readonly Row[],
  style: Marks["style"],
): Piece[] {
  if (isSameText(ours, theirs) || isSameText(base, theirs)) return [rowsPiece(ours)];
  if (isSameText(base, ours)) return [rowsPiece(theirs)];
  if (style === "diff3") return [{ kind: "conflict", ours, base, theirs, why: CHANGED_TWICE }];
  return trimmed(base, ours, theirs, CHANGED_TWICE);
}

const CHANGED_TWICE = "the same lines were changed in two ways";

/** A conflict without the lines that both sides have alike at its ends; none where they are all alike. */
export function trimmed(base: readonly Row[], ours: readonly Row[], theirs: readonly Row[], why: string): Piece[] {
  const most = Math.min(ours.length, theirs.length);
  let head = 0;
  while (head < most && ours[head]!.text === theirs[head]!.text) head++;
  let tail = 0;
  while (tail < most - head && ours.at(-1 - tail)!.text === theirs.at(-1 - tail)!.text) tail++;
  const pieces: Piece[] = [];
  if (head > 0) pieces.push(rowsPiece(ours.slice(0, head)));
  const rest = { ours: ours.slice(head, ours.length - tail), theirs: theirs.slice(head, theirs.length - tail) };
  if (rest.ours.length + rest.theirs.length > 0) pieces.push({ kind: "conflict", base, ...rest, why });
  if (tail > 0) pieces.push(rowsPiece(ours.slice(ours.length - tail)));
  return pieces;
}

function textsOf(rows: readonly Row[]): string[] {
  return rows.map(({ text }) => text);
}
