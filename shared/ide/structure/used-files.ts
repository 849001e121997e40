/** How files lean on one another by `use`: which ones a file uses, and which use it. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Position, type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import type { FileKind } from "../../syntax/tree.ts";
import type { Steps } from "../../text/steps.ts";

/** A file as one of those that lean on others. */
export interface FileItem {
  readonly file: FilePath;
  readonly name: string;
  readonly kind: FileKind;
  /** The line of its header; its beginning where it has none. */
  readonly range: Range;
  readonly nameRange: Range;
}

/** The file at a position: its own on the line of its header, the one that is used on a `use` line, else null. */
export function fileItemAt(workspace: Workspace, file: FilePath, at: Position): FileItem | null {
  const script = workspace.script(file);
  if (!script) return null;
  if (at.line === script.tree.header) return itemOf(script);
  const use = script.uses.find(({ line }) => line === at.line);
  const target = use && workspace.target(script, use);
  return target?.kind === "script" ? itemOf(target.script) : null;
}

/** The files that a file uses itself, in order of its `use` lines; those that have no part in it are left out. */
export function filesUsedBy(workspace: Workspace, file: FilePath): FileItem[] {
  const script = workspace.script(file);
  return script ? usedBy(workspace, script).map(itemOf) : [];
}

/** The files that use a file themselves, in order of path. */
export function* filesThatUse(workspace: Workspace, file: FilePath): Steps<FileItem[]> {
  const found: FileItem[] = [];
  for (const path of workspace.view.list()) {
    const script = workspace.script(path);
    yield;
    if (script && usedBy(workspace, script).some((each) => each.file === file)) found.push(itemOf(script));
  }
  return found;
}

function usedBy(workspace: Workspace, script: Script): Script[] {
  const used = new Set<Script>();
  for (const use of script.uses) {
    const target = workspace.target(script, use);
    if (target.kind === "script" && target.script.file !== script.file && mayUse(script.kind, target.script.kind))
      used.add(target.script);
  }
  return [...used];
}

function mayUse(kind: FileKind, used: FileKind): boolean {
  return used === "handset" ? kind !== "dialect" : used === "layer" && (kind === "craft" || kind === "layer");
}

function itemOf(script: Script): FileItem {
  const { lines, header } = script.tree;
  const line = header ?? 0;
  const { node, text } = lines[line]!;
  const named = node.kind === "header" ? (node.name ?? node.word) : { start: 0, end: 0 };
  const end = header === null ? 0 : text.length;
  return {
    file: script.file,
    name: script.name || script.kind,
    kind: script.kind,
    range: rangeOf(spanAt(line, { start: 0, end })),
    nameRange: rangeOf(spanAt(line, named)),
  };
}
