/** Which files mean the same thing by the same name: those of one craft, and of every craft that they are part of. */
import { boardFilesIn } from "../../model/board-files.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { planOf } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Steps } from "../../text/steps.ts";
import { occurrencesIn } from "./occurrences.ts";
import { isFixed, type Place, sameThing, staysInFile, type Thing } from "./thing.ts";

/** A craft, or a layer or a handset that no craft uses, with the files that speak of the same things. */
export interface Whole {
  readonly file: FilePath;
  /** Those that are merged, and the dialects of the board. */
  readonly files: readonly FilePath[];
  /** Parts that could not be looked into, each by the line that names it and why. */
  readonly unknown: readonly { readonly file: FilePath; readonly line: number; readonly why: "newer" | "unread" }[];
}

export interface Sharing {
  /** Every whole that a file is part of. */
  wholesWith(file: FilePath): readonly Whole[];
}

/** Found once for each state of the workspace. */
export function* sharingOf(workspace: Workspace): Steps<Sharing> {
  const known = workspace.memo.get(sharingOf);
  if (known) return known.answer as Sharing;
  const scripts: Script[] = [];
  const dialects = new Map<string, FilePath[]>();
  for (const file of workspace.view.list()) {
    const script = workspace.script(file);
    if (script?.kind === "dialect") push(dialects, script.name, file);
    else if (script) scripts.push(script);
    yield;
  }
  const byFile = new Map<FilePath, Whole[]>();
  // A layer or a handset by itself is a whole only where no craft makes it part of one.
  for (const isCraft of [true, false])
    for (const script of scripts) {
      if ((script.kind === "craft") !== isCraft || (!isCraft && byFile.has(script.file))) continue;
      const whole = wholeOf(workspace, script, dialects);
      for (const file of whole.files) push(byFile, file, whole);
      yield;
    }
  const sharing: Sharing = { wholesWith: (file) => byFile.get(file) ?? [] };
  workspace.memo.set(sharingOf, { also: undefined, answer: sharing });
  return sharing;
}

function wholeOf(workspace: Workspace, script: Script, dialects: ReadonlyMap<string, readonly FilePath[]>): Whole {
  const { parts, gaps } = planOf(workspace, script, null);
  const files = new Set(parts.map((part) => part.script.file));
  const named = new Set<string>();
  for (const part of parts)
    for (const file of boardOf(part.script).dialects) {
      const path = workspace.view.realPath(file);
      const dialect = workspace.script(path);
      if (dialect?.kind !== "dialect") continue;
      files.add(path);
      named.add(dialect.name);
    }
  // Lines that are kept for a dialect name it; which file that is only the craft's board says.
  for (const part of parts)
    for (const name of boardOf(part.script).kept)
      if (!named.has(name)) for (const file of dialects.get(name) ?? []) files.add(file);
  const unknown = gaps.flatMap(({ why, source }) =>
    why === "newer" || why === "unread" ? [{ file: source.file, line: source.line, why }] : [],
  );
  return { file: script.file, files: [...files], unknown };
}

/** What a script says of boards: the dialects that it names by their files, and those for which it keeps lines. */
interface BoardNames {
  readonly dialects: readonly FilePath[];
  readonly kept: readonly string[];
}

const boards = new WeakMap<Script, BoardNames>();

function boardOf(script: Script): BoardNames {
  let found = boards.get(script);
  if (!found) {
    const files = boardFilesIn(script).flatMap(({ what, file }) => (what === "dialect" ? (file ?? []) : []));
    const kept = script.tree.sections.flatMap(({ name, title }) => (name === "verbatim" ? (title ?? []) : []));
    found = { dialects: files, kept };
    boards.set(script, found);
  }
  return found;
}

/** A name in all files in which it is one thing. */
export interface Shared {
  readonly places: readonly Place[];
  /** Every whole that one of the files is part of. */
  readonly wholes: readonly Whole[];
}

/**
 * Where a thing that a file names is named: in that file, in those of each craft that it is part of, and so on from each
 * of these that names it. What the language names is not looked for beyond a dialect, which speaks for any craft.
 */
export function* sharedWith(workspace: Workspace, file: FilePath, what: Thing): Steps<Shared> {
  const places: Place[] = [];
  const wholes = new Set<Whole>();
  const sharing = staysInFile(what) ? null : yield* sharingOf(workspace);
  const seen = new Set([file]);
  const silent = new Set<FilePath>();
  for (const each of seen) {
    for (const occurrence of namedIn(workspace, each, what)) places.push({ file: each, ...occurrence });
    yield;
    if (!sharing || (each !== file && isFixed(what) && workspace.script(each)?.kind === "dialect")) continue;
    for (const whole of sharing.wholesWith(each)) {
      if (wholes.has(whole)) continue;
      wholes.add(whole);
      // What is added to a set while it is gone through is gone through as well.
      for (const part of whole.files) {
        if (seen.has(part) || silent.has(part)) continue;
        (namedIn(workspace, part, what).length > 0 ? seen : silent).add(part);
        yield;
      }
    }
  }
  return { places: places.sort(inOrder), wholes: [...wholes] };
}

/** The places at which one file names a thing; a dialect names itself in its header. */
export function namedIn(workspace: Workspace, file: FilePath, what: Thing) {
  const all = occurrencesIn(workspace, file);
  if (what.kind === "dialect") {
    const script = workspace.script(file);
    const isIt = script?.kind === "dialect" && script.name === what.name;
    return all.filter(
      ({ thing, does }) => sameThing(thing, what) || (isIt && thing.kind === "file" && does === "defines"),
    );
  }
  return all.filter(({ thing }) => sameThing(thing, what));
}

/** In order of file and place. */
export function inOrder(a: Place, b: Place): number {
  return a.file === b.file ? a.line - b.line || a.start - b.start : a.file < b.file ? -1 : 1;
}

function push<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}
