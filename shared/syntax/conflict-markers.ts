/**
 * Git's conflict markers. Of a conflict the first side is read, so that the rest of the file
 * keeps its meaning; the other side is kept, and one finding says so.
 */
import type { SyntaxIssue } from "./tree.ts";

const MARK = /^(<{7}|\|{7}|={7}|>{7})( .*)?$/;

/** Lines that belong to no reading of the file: markers, and the sides after the first. */
export function conflictLines(texts: readonly string[], issues: SyntaxIssue[]): Set<number> | null {
  let unread: Set<number> | null = null;
  for (let i = 0; i < texts.length; i++) {
    if (!markOf(texts[i]!)) continue;
    unread ??= new Set();
    const { markers, divider, last } = conflictAt(texts, i);
    if (divider !== null && last !== null) {
      unread.add(i);
      for (let line = divider; line <= last; line++) unread.add(line);
    } else {
      for (const line of markers) unread.add(line);
    }
    report(issues, texts, i, conflictMessage(i, divider, last));
    i = last ?? markers.at(-1)!;
  }
  return unread;
}

interface Conflict {
  /** Every line of it that is a marker, the first included. */
  readonly markers: readonly number[];
  /** The line from which on it is not read, and its last line; null where it has no such line. */
  readonly divider: number | null;
  readonly last: number | null;
}

/** The conflict whose first marker stands on a line: up to its end, or to where the next begins. */
function conflictAt(texts: readonly string[], start: number): Conflict {
  const markers: number[] = [];
  const opened = markOf(texts[start]!) === "<";
  let divider: number | null = null;
  for (let i = start; i < texts.length; i++) {
    const mark = markOf(texts[i]!);
    if (!mark) continue;
    if (mark === "<" && i > start) break;
    markers.push(i);
    if (opened && (mark === "|" || mark === "=")) divider ??= i;
    if (mark === ">") return { markers, divider, last: divider === null ? null : i };
  }
  return { markers, divider: null, last: null };
}

function conflictMessage(start: number, divider: number | null, last: number | null): string {
  if (divider === null || last === null)
    return "This marker belongs to a merge that was resolved only in part. Remove what is left of its markers, once you have looked at what stands around them.";
  const [from, to] = [start + 2, divider];
  const lines = from === to ? `line ${from}` : `lines ${from} to ${to}`;
  const read = from > to ? "its first side is empty" : `its first side, ${lines}, was read`;
  return `An unresolved merge: ${read}, the other side (up to line ${last + 1}) was not. Keep what is right and remove the markers.`;
}

function markOf(text: string): "<" | "|" | "=" | ">" | null {
  const first = text.charCodeAt(0);
  if (first !== 60 && first !== 61 && first !== 62 && first !== 124) return null;
  return MARK.test(text) ? (text.charAt(0) as "<" | "|" | "=" | ">") : null;
}

function report(issues: SyntaxIssue[], texts: readonly string[], line: number, message: string): void {
  issues.push({ code: "syntax", message, span: { line, start: 0, end: texts[line]!.length } });
}
