/** What becomes of `use` lines when files are renamed, moved or deleted: also those of the moved files themselves. */
import { isBelow } from "../../model/file-names.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script, Use } from "../../model/script.ts";
import { pathBetween, planOf, resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Range, rangeOf } from "../../syntax/span.ts";
import { whyNotWritable } from "./script-edits.ts";

/** A file, or a folder with all that is in it. */
export interface Move {
  readonly from: FilePath;
  readonly to: FilePath;
}

/** An edit of one line; the file is known by its path from before. `was` is the text in its place. */
export interface UseLineEdit {
  readonly file: FilePath;
  readonly range: Range;
  readonly was: string;
  readonly text: string;
}

export interface UseLineChanges {
  readonly edits: readonly UseLineEdit[];
  /** How many lines that is: one edit may take several. */
  readonly lines: number;
  /** Why lines that ought to be changed are not, a sentence each. */
  readonly left: readonly string[];
}

/** Where a path is after some moves. Of nested folders the innermost counts, as it was moved for itself. */
export function afterMoves(path: FilePath, moves: readonly Move[]): FilePath {
  let best: Move | null = null;
  for (const move of moves)
    if (isBelow(path, move.from) && (best === null || move.from.length > best.from.length)) best = move;
  return best === null ? path : best.to + path.slice(best.from.length);
}

/**
 * Makes every `use` line lead where it led before the moves. A line that leads nowhere stays as it is where only its
 * own file is moved, since that may be what makes it right.
 */
export function useLinesAfter(workspace: Workspace, moves: readonly Move[]): UseLineChanges {
  const edits: UseLineEdit[] = [];
  const left: string[] = [];
  for (const script of scriptsWith(
    workspace,
    moves.map(({ from }) => from),
  )) {
    const file = afterMoves(script.file, moves);
    for (const use of script.uses) {
      const target = targetOf(script, use);
      if (target === null) continue;
      const newTarget = afterMoves(target, moves);
      if (file === script.file && newTarget === target) continue;
      if (resolvePath(file, use.path!) === newTarget) continue;
      if (newTarget === target && !leadsSomewhere(workspace, target)) continue;
      const path = spelled(use.path!, pathBetween(file, newTarget));
      const why = whyNotWritable(workspace, script, use.line) ?? whyNotNamed(script, use, file, newTarget, path);
      if (why !== null) left.push(why);
      else edits.push(edited(script, use, `"${path.replaceAll('"', '\\"')}"`));
    }
  }
  return { edits, lines: edits.length, left };
}

export interface UseLineRemovals extends UseLineChanges {
  /** The names of the craft that go without what is deleted. */
  readonly craft: readonly string[];
}

/** Removes the `use` lines that name files which are deleted, or lie in deleted folders. */
export function useLinesWithout(workspace: Workspace, gone: readonly FilePath[]): UseLineRemovals {
  const isGone = (path: FilePath) => gone.some((each) => isBelow(path, each));
  const edits: UseLineEdit[] = [];
  const left: string[] = [];
  let lines = 0;
  for (const script of scriptsWith(workspace, [])) {
    if (isGone(script.file)) continue;
    const removed = new Set<number>();
    for (const use of script.uses) {
      const target = targetOf(script, use);
      if (target === null || !isGone(target)) continue;
      const why = whyNotWritable(workspace, script, use.line);
      if (why === null) removed.add(use.line);
      else left.push(why);
    }
    lines += removed.size;
    edits.push(...removals(script, removed));
  }
  return { edits, lines, left, craft: craftWithout(workspace, isGone) };
}

/** Every script whose lines are looked at: those of the workspace, and those moved that are not listed. */
function scriptsWith(workspace: Workspace, more: readonly FilePath[]): Script[] {
  const files = new Set([...workspace.view.list(), ...more]);
  return [...files].flatMap((file) => workspace.script(file) ?? []);
}

/** The path that a line comes to, whatever is there; null where it is none. */
function targetOf(script: Script, { path }: Use): FilePath | null {
  return path === null ? null : resolvePath(script.file, path);
}

function leadsSomewhere({ view }: Workspace, target: FilePath): boolean {
  const answer = view.read(view.realPath(target));
  return answer !== undefined && answer.kind !== "missing";
}

/** The path as its writer would write it: with `./` before it, where it had that and still may. */
function spelled(before: string, path: string): string {
  return before.startsWith("./") && !path.startsWith("../") ? `./${path}` : path;
}

/** Why a path cannot stand in a `use` line, in a sentence; null where it can. */
function whyNotNamed(script: Script, { line }: Use, file: FilePath, target: FilePath, path: string): string | null {
  // A line cannot hold the end of a line, nor a name a backslash.
  if (!/[\r\n\\]/.test(path) && resolvePath(file, path) === target) return null;
  return `Line ${line + 1} of “${script.name}” keeps its “use”, since “${target}” cannot be named from there: move it, or give it another name.`;
}

function edited(script: Script, { at }: Use, text: string): UseLineEdit {
  return { file: script.file, range: rangeOf(at), was: textIn(script, rangeOf(at)), text };
}

/** Takes out whole lines, those beside one another at once, and one of two blank lines that then come together. */
function removals(script: Script, removed: ReadonlySet<number>): UseLineEdit[] {
  const { lines } = script.tree;
  const isBlank = (line: number) => lines[line]?.text.trim() === "";
  const edits: UseLineEdit[] = [];
  for (let first = 0; first < lines.length; first++) {
    if (!removed.has(first)) continue;
    let end = first;
    while (removed.has(end)) end++;
    if (isBlank(first - 1) && isBlank(end) && end < lines.length - 1) end++;
    const range =
      end < lines.length
        ? { start: { line: first, character: 0 }, end: { line: end, character: 0 } }
        : { start: endOf(script, first - 1), end: endOf(script, end - 1) };
    edits.push({ file: script.file, range, was: textIn(script, range), text: "" });
    first = end - 1;
  }
  return edits;
}

/** The place behind the last character of a line; the beginning of the file where there is no such line. */
function endOf({ tree }: Script, line: number): Range["end"] {
  return line < 0 ? { line: 0, character: 0 } : { line, character: tree.lines[line]!.text.length };
}

/** The text of a range, with its line ends as they are. */
function textIn({ tree }: Script, { start, end }: Range): string {
  let text = "";
  for (let line = start.line; line <= end.line && line < tree.lines.length; line++) {
    const whole = tree.lines[line]!.text + tree.ends[line]!;
    const from = line === start.line ? start.character : 0;
    text += whole.slice(from, line === end.line ? end.character : whole.length);
  }
  return text;
}

function craftWithout(workspace: Workspace, isGone: (path: FilePath) => boolean): string[] {
  return workspace.view.list().flatMap((file) => {
    const script = workspace.script(file);
    if (script?.kind !== "craft" || isGone(file)) return [];
    return planOf(workspace, script, null).parts.some((part) => isGone(part.script.file)) ? script.name : [];
  });
}
