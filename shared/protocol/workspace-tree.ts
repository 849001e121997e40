/** The scripts of a workspace and how they hang together, for the tree beside the panel and for whoever lists craft. */
import type { Severity } from "./findings.ts";

/** What a script is, by its header. */
export type ScriptKind = "craft" | "layer" | "handset" | "dialect";

/** How many findings a file has, and where the gravest one stands. */
export interface FindingCounts {
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
  readonly hints: number;
  readonly worst: { readonly severity: Severity; readonly line: number } | null;
}

/** A `use` line. */
export interface TreeUse {
  readonly line: number;
  /** The used script as an index into `WorkspaceTree.files`; null where nothing can be used. */
  readonly to: number | null;
  /** As written; empty where it cannot be read. */
  readonly path: string;
  /** Why the file is no part of what uses it, as in “there is no such file”; null where it is a part. */
  readonly why: string | null;
}

/** A script. */
export interface TreeFile {
  readonly file: string;
  /** Null for a file that could not be read as a script. */
  readonly kind: ScriptKind | null;
  /** The name in the header, or the file's own. */
  readonly name: string;
  /** The line of the header; 0 where there is none. */
  readonly line: number;
  /** What keeps it from being read whole, as in “it is written in a newer edition”; null where nothing does. */
  readonly fault: string | null;
  readonly uses: readonly TreeUse[];
  /** Of a craft the handset that counts, as an index; null for none, and for all that is no craft. */
  readonly handset: number | null;
  /** The craft of which it is a part, as indices; empty for a craft. */
  readonly users: readonly number[];
  /** Null where they were not asked for. */
  readonly findings: FindingCounts | null;
}

/** All scripts, in order of path; indices are shorter than paths where a thousand craft use one layer. */
export interface WorkspaceTree {
  readonly files: readonly TreeFile[];
}

/** `fettle/workspaceTree`: all scripts of the workspace, with their findings if these are asked for. */
export const TREE_REQUEST = "fettle/workspaceTree";
export interface TreeParams {
  readonly findings: boolean;
}
