/** What is found in a craft as it would be, and which line of an offer brings it. */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding, PlaceRange } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { type Adopted, editsOf } from "./adoption.ts";

/** A finding of the result. */
export type FoundAfter = Finding & { readonly isNew: boolean; readonly what: string | null };

export interface Outcome {
  /** Those that are new first, the worst first. */
  readonly findings: readonly FoundAfter[];
  /** How many of now would be gone. */
  readonly gone: number;
}

/**
 * The findings of the files as they would be, held against those of now. `whats`: the names that are written. The
 * craft comes first of the files.
 */
export function outcomeOf(
  now: readonly Finding[],
  files: readonly FilePath[],
  result: Adopted,
  whats: ReadonlySet<string>,
): Outcome {
  const before = new Map<string, number>();
  for (const each of now) before.set(keyOf(each), (before.get(keyOf(each)) ?? 0) + 1);
  const found = foundIn(result.after, files).map((finding): FoundAfter => {
    const count = before.get(keyOf(finding)) ?? 0;
    if (count > 0) before.set(keyOf(finding), count - 1);
    const isNew = count === 0;
    return { ...finding, isNew, what: isNew ? bringerOf(finding, result.after, whats) : null };
  });
  const rank = { error: 0, warning: 1, info: 2, hint: 3 };
  return {
    findings: found.sort((a, b) => Number(b.isNew) - Number(a.isNew) || rank[a.severity] - rank[b.severity]),
    gone: [...before.values()].reduce((sum, count) => sum + count, 0),
  };
}

/** True for what must not come in unseen. */
export function isGrave({ severity, isNew }: FoundAfter): boolean {
  return isNew && (severity === "error" || severity === "warning");
}

/** The findings of a craft, and of a layer of it that is written. */
export function foundIn(workspace: Workspace, files: readonly FilePath[]): Finding[] {
  const [craft, ...others] = files;
  // A layer's own findings stand in its file; what it does on the craft is found with the craft.
  return [...findingsOf(workspace, craft!), ...others.flatMap((file) => findingsOf(workspace, file))];
}

/** The same for a finding of the same kind on a line that only moved. */
function keyOf({ code, message, file }: Finding): string {
  return `${code} ${file} ${message.replace(/\b(lines?|file) \S*\d+/g, "$1").replace(/\.fettle:\d+/g, ".fettle")}`;
}

/** The name whose line a finding stands on, or is about; null where it is none of those that were written. */
function bringerOf(finding: Finding, after: Workspace, whats: ReadonlySet<string>): string | null {
  for (const { file, range } of [finding, ...finding.related]) {
    const entry = after.script(file)?.entries.find(({ line }) => line === range.start.line);
    const what = entry && `${entry.section}.${entry.name}`;
    if (what !== undefined && whats.has(what)) return what;
  }
  return null;
}

/** With the places of the files as they are now. */
export function asNow(finding: FoundAfter, result: Adopted): FoundAfter {
  const place = <T extends { readonly file: string; readonly range: PlaceRange }>(each: T): T => {
    const edits = editsOf(result, each.file);
    if (edits.length === 0) return each;
    const line = lineBefore(each.range.start.line, edits);
    const last = lineBefore(each.range.end.line, edits);
    return {
      ...each,
      range: { start: { ...each.range.start, line }, end: { ...each.range.end, line: Math.max(line, last) } },
    };
  };
  // Repairs are edits of a text that does not exist yet.
  return { ...place(finding), related: finding.related.map(place), fixes: [] };
}

/** The line from which a line of the changed text comes; of one that was written the line above. */
function lineBefore(line: number, edits: readonly TextEdit[]): number {
  let shift = 0;
  for (const { range, text } of [...edits].sort((a, b) => a.range.start.line - b.range.start.line)) {
    const added = text.split(/\r\n|\r|\n/).length - 1;
    const removed = range.end.line - range.start.line;
    const from = range.start.line + shift;
    if (line <= from) break;
    if (line <= from + added) return range.end.line;
    shift += added - removed;
  }
  return Math.max(0, line - shift);
}
