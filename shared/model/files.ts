/**
 * What the model asks of the world: texts by path. Two paths that lead to one real file must be
 * given as one. Who answers (editor buffers, a disk, a web workspace) is not the model's business.
 */
import type { FlownCraft } from "./flown.ts";
import type { FleetHabits } from "./habits.ts";
import type { PastChecks } from "./past.ts";

/** An absolute path, with `/`. Plain text passes for one, and the address that an editor has for a document does not. */
export type FilePath = string & { readonly __text?: "path" };

/** What a path holds. */
export type FileAnswer =
  | { readonly kind: "text"; readonly text: string; readonly validUtf8: boolean }
  | { readonly kind: "missing" }
  | { readonly kind: "outside" }
  | { readonly kind: "unreadable"; readonly why: string };

/** A still picture of the files: the same path gives the same answer for as long as it is used. */
export interface FileView {
  /** The answer for a path, or undefined where nobody has looked yet. */
  read(path: FilePath): FileAnswer | undefined;
  /** Every script of the workspace that is known, in order of path. */
  list(): readonly FilePath[];
  /** The one path by which the real file behind `path` is known. */
  realPath(path: FilePath): FilePath;
  /** Whether every script that may use this one is in `list()`: false where some are not listed yet, or never will be. */
  listsUsersOf(path: FilePath): boolean;
  /** What git knows of a craft's past; null where it knows nothing, or nobody has asked yet. Left out where there is no git. */
  past?(path: FilePath): PastChecks | null;
  /**
   * The craft that somebody named to be flown at the same time, in the order in which they were named; the same list
   * for as long as none of them sends otherwise. Left out where nobody named any.
   */
  together?(): readonly FlownCraft[];
  /** True where nobody waits at a key, so that a plan for them may be looked for as long as it takes: the same in all views of one core. */
  readonly isPatient?: boolean;
  /**
   * How the craft that share a craft's handset turn their modes on; null where none is known, or nobody has looked yet.
   * Left out where nobody looks.
   */
  habits?(path: FilePath): FleetHabits | null;
}

/** A view of texts held in memory, for what has no files: pasted text, examples, tests. */
export function memoryFiles(texts: Readonly<Record<string, string>>): FileView {
  return {
    read: (path) =>
      Object.hasOwn(texts, path) ? { kind: "text", text: texts[path]!, validUtf8: true } : { kind: "missing" },
    list: () => Object.keys(texts).sort(),
    realPath: (path) => path,
    listsUsersOf: () => true,
  };
}
