/**
 * Git's conflict markers. Only the first side of a conflict is parsed, so that the rest of the file
 * keeps its meaning. The other side is kept as text, and one issue reports the conflict.
 */
import type { SyntaxIssue } from "./tree.ts";

const MARK = /^(<{7}|\|{7}|={7}|>{7})( .*)?$/;

/**
 * The numbers of the lines that are not parsed: markers, and every side after the first. Null without markers.
 * Adds one issue for each conflict to `issues`.
 */
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

/** The first and the last line of each conflict, markers included: of an incomplete one, of the markers that are left. */
export function conflictsIn(texts: readonly string[]): { readonly first: number; readonly last: number }[] {
  const found: { first: number; last: number }[] = [];
  for (let i = 0; i < texts.length; i++) {
    if (!markOf(texts[i]!)) continue;
    const { markers, last } = conflictAt(texts, i);
    found.push({ first: i, last: last ?? markers.at(-1)! });
    i = found.at(-1)!.last;
  }
  return found;
}

interface Conflict {
  /** The lines that are markers, the first included. */
  readonly markers: readonly number[];
  /** The first line that is not parsed, and the last line of the conflict; null if the conflict is incomplete. */
  readonly divider: number | null;
  readonly last: number | null;
}

/** The conflict whose first marker is on line `start`: up to its end, or to the start of the next one. */
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
