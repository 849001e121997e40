/**
 * What becomes of the lines that name files, which are `use` lines and those of a board's dialect and text, when files
 * are renamed, moved or deleted: also of those of the moved files themselves.
 */
import { boardFilesIn } from "../../model/board-files.ts";
import { isBelow, isScriptFile } from "../../model/file-names.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween, planOf, resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Range, rangeOf, type Span, spanAt } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { linesOfNote, whyNotWritable } from "./script-edits.ts";

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
  /** How many of them are `use` lines. */
  readonly uses: number;
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
 * Makes every line lead where it led before the moves. A line that leads nowhere stays as it is where only its own file
 * is moved, since that may be what makes it right.
 */
export function* useLinesAfter(workspace: Workspace, moves: readonly Move[]): Steps<UseLineChanges> {
  const edits: UseLineEdit[] = [];
  const left: string[] = [];
  let uses = 0;
  for (const script of scriptsWith(workspace, moves.map(({ from }) => from).filter(isScriptFile))) {
    const file = afterMoves(script.file, moves);
    for (const naming of linesNaming(script)) {
      const { path, target, at } = naming;
      const newTarget = afterMoves(target, moves);
      if (file === script.file && newTarget === target) continue;
      if (resolvePath(file, path) === newTarget) continue;
      if (newTarget === target && !leadsSomewhere(workspace, target)) continue;
      const put = file === script.file ? spelled(naming, newTarget) : spelledAnew(naming, file, newTarget);
      const why = whyNotWritable(workspace, script, at.line) ?? whyNotNamed(script, naming, file, newTarget, put);
      if (why !== null) left.push(why);
      else {
        edits.push({ file: script.file, range: rangeOf(at), was: textIn(script, rangeOf(at)), text: quoted(put) });
        if (naming.what === "use") uses++;
      }
    }
    yield;
  }
  return { edits, lines: edits.length, uses, left };
}

export interface UseLineRemovals extends UseLineChanges {
  /** The names of the craft that go without what is deleted. */
  readonly craft: readonly string[];
}

/** Removes the lines that name files which are deleted, or lie in deleted folders; those of a board with their notes. */
export function* useLinesWithout(workspace: Workspace, gone: readonly FilePath[]): Steps<UseLineRemovals> {
  const isGone = (path: FilePath) => gone.some((each) => isBelow(path, each));
  const edits: UseLineEdit[] = [];
  const left: string[] = [];
  let lines = 0;
  let uses = 0;
  for (const script of scriptsWith(workspace, [])) {
    if (isGone(script.file)) continue;
    const removed = new Set<number>();
    for (const { what, target, at } of linesNaming(script)) {
      if (!isGone(target)) continue;
      const why = whyNotWritable(workspace, script, at.line);
      if (why !== null) left.push(why);
      else if (!removed.has(at.line)) {
        removed.add(at.line);
        lines++;
        if (what === "use") uses++;
        else for (const line of linesOfNote(script, at.line)) removed.add(line);
      }
    }
    edits.push(...removals(script, removed));
    yield;
  }
  return { edits, lines, uses, left, craft: yield* craftWithout(workspace, isGone) };
}

/** A line that names a file. */
interface Naming {
  readonly what: "use" | "board";
  /** The file in which it stands. */
  readonly from: FilePath;
  /** As written. */
  readonly path: string;
  /** The path that it comes to, whatever is there. */
  readonly target: FilePath;
  /** The text in quotes. */
  readonly at: Span;
}

/** The lines of a script that name a file by a path that is one. */
function linesNaming(script: Script): Naming[] {
  const found: Naming[] = [];
  for (const { path, at } of script.uses) {
    const target = path === null ? null : resolvePath(script.file, path);
    if (target !== null) found.push({ what: "use", from: script.file, path: path!, target, at });
  }
  for (const { entry, path, file } of boardFilesIn(script))
    if (file !== null)
      found.push({ what: "board", from: script.file, path, target: file, at: spanAt(entry.line, entry.value!) });
  return found;
}

/** Every script whose lines are looked at: those of the workspace, and those moved that are not listed, which must have been read. */
function scriptsWith(workspace: Workspace, more: readonly FilePath[]): Script[] {
  const files = new Set([...workspace.view.list(), ...more]);
  return [...files].flatMap((file) => workspace.script(file) ?? []);
}

function leadsSomewhere({ view }: Workspace, target: FilePath): boolean {
  const answer = view.read(view.realPath(target));
  return answer !== undefined && answer.kind !== "missing";
}

/** The path to another file as its writer would write it; where the folder is the same, only its last part is another. */
function spelled(naming: Naming, target: FilePath): string {
  const { path, target: before } = naming;
  const [oldName, name] = [before.slice(before.lastIndexOf("/")), target.slice(target.lastIndexOf("/"))];
  const sameFolder = before.slice(0, -oldName.length) === target.slice(0, -name.length);
  const end = path.lastIndexOf("/");
  if (sameFolder && path.slice(end + 1) === oldName.slice(1)) return path.slice(0, end + 1) + name.slice(1);
  return spelledAnew(naming, naming.from, target);
}

/** The path from a file: with `./` before it, where it had that and still may. */
function spelledAnew({ path: before }: Naming, from: FilePath, target: FilePath): string {
  const path = pathBetween(from, target);
  return before.startsWith("./") && !path.startsWith("../") ? `./${path}` : path;
}

function quoted(path: string): string {
  return `"${path.replaceAll('"', '\\"')}"`;
}

/** Why a path cannot stand in a line, in a sentence; null where it can. */
function whyNotNamed(
  script: Script,
  { what, at }: Naming,
  file: FilePath,
  target: FilePath,
  path: string,
): string | null {
  // A line cannot hold the end of a line, nor a name a backslash.
  if (!/[\r\n\\]/.test(path) && resolvePath(file, path) === target) return null;
  return `Line ${at.line + 1} of “${script.name}” keeps its ${what === "use" ? "“use”" : "path"}, since “${target}” cannot be named from there: move it, or give it another name.`;
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

function* craftWithout(workspace: Workspace, isGone: (path: FilePath) => boolean): Steps<string[]> {
  const names: string[] = [];
  for (const file of workspace.view.list()) {
    const script = workspace.script(file);
    if (script?.kind !== "craft" || isGone(file)) continue;
    const { parts } = planOf(workspace, script, null);
    const goesWithout = parts.some(
      (part) =>
        isGone(part.script.file) ||
        boardFilesIn(part.script).some((named) => named.file !== null && isGone(named.file)),
    );
    if (goesWithout) names.push(script.name);
    yield;
  }
  return names;
}
