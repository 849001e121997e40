/**
 * Git's conflict markers. Of a conflict the first side is read, so that the rest of the file
 * keeps its meaning; the other side is kept, and one finding says so.
 */
import type { SyntaxIssue } from "./tree.ts";

const MARK = /^(<{7}|\|{7}|={7}|>{7})( .*)?$/;

/** Lines that belong to no reading of the file: markers, and the sides after the first. */
export function mergeMarks(texts: readonly string[], issues: SyntaxIssue[]): Set<number> | null {
  let unread: Set<number> | null = null;
  for (let i = 0; i < texts.length; i++) {
    const mark = markOf(texts[i]!);
    if (!mark) continue;
    unread ??= new Set();
    unread.add(i);
    if (mark !== "<") {
      report(
        issues,
        texts,
        i,
        `This marker of a merge has no beginning: remove it once you have looked at what stands around it.`,
      );
      continue;
    }
    const end = closingMark(texts, i);
    if (end === null) {
      report(
        issues,
        texts,
        i,
        "This marker of a merge has no end: the conflict was resolved only in part. Remove it once you have looked at what follows.",
      );
      continue;
    }
    for (let line = end.divider; line <= end.last; line++) unread.add(line);
    report(
      issues,
      texts,
      i,
      `An unresolved merge: lines ${i + 2} to ${end.divider} were read, the other side (up to line ${end.last + 1}) was not. Keep what is right and remove the markers.`,
    );
    i = end.last;
  }
  return unread;
}

/** The line from which on a conflict is not read, and its last line; null where it has no end. */
function closingMark(texts: readonly string[], start: number): { divider: number; last: number } | null {
  let divider: number | null = null;
  for (let i = start + 1; i < texts.length; i++) {
    const mark = markOf(texts[i]!);
    if (mark === "<") return null;
    if (mark === "|" || mark === "=") divider ??= i;
    if (mark === ">") return divider === null ? null : { divider, last: i };
  }
  return null;
}

function markOf(text: string): "<" | "|" | "=" | ">" | null {
  const first = text.charCodeAt(0);
  if (first !== 60 && first !== 61 && first !== 62 && first !== 124) return null;
  return MARK.test(text) ? (text.charAt(0) as "<" | "|" | "=" | ">") : null;
}

function report(issues: SyntaxIssue[], texts: readonly string[], line: number, message: string): void {
  issues.push({ code: "syntax", message, span: { line, start: 0, end: texts[line]!.length } });
}
