/** One file, understood by itself: its tree, its entries with their values, its findings. */

import type { Piece } from "../syntax/piece.ts";
import type { Fix, Span } from "../syntax/span.ts";
import type { Tree, Word } from "../syntax/tree.ts";
import type { Value } from "../syntax/value.ts";

/** Codes of what one file alone can have wrong with its words and values. */
export type ReadingCode =
  | "syntax"
  | "edition-newer"
  | "unknown-name"
  | "wrong-type"
  | "wrong-unit"
  | "missing-unit"
  | "out-of-range"
  | "unusual-value"
  | "section-misplaced"
  | "duplicate-entry"
  | "allow-unexplained";

/** Something found in one file, before the notes that accept findings are heeded. */
export interface Issue {
  readonly code: ReadingCode;
  readonly message: string;
  readonly span: Span;
  readonly fixes?: readonly Fix[];
  readonly related?: readonly { readonly message: string; readonly span: Span }[];
}

/** What an entry is about. */
export type EntryKind = "setting" | "mode" | "output" | "element" | "control" | "follows";

/**
 * One entry: a name and, where it could be read without a fault, its value. An entry that has a
 * fault leaves its name without value, and nothing earlier shows through.
 */
export interface Entry {
  readonly kind: EntryKind;
  /** Section as resolved: `pack`, `pack/NAME` for a named pack, `osd-second`, … */
  readonly section: string;
  readonly name: string;
  readonly line: number;
  readonly head: Word;
  readonly value: Value | null;
  /** Canonical spelling of the value; of one that could not be read, what stands there. */
  readonly text: string;
  readonly pieces: readonly Piece[];
}

/** What a `drop` takes back: every name of the section (`all`), or those named. */
export interface Drop {
  readonly section: string;
  readonly line: number;
  readonly all: boolean;
  readonly names: readonly Word[];
}

export interface Kept {
  readonly dialect: string;
  readonly text: string;
  readonly source: { readonly file: string; readonly line: number };
}

export interface Use {
  readonly line: number;
  /** As written; null where the text could not be read. */
  readonly path: string | null;
  readonly at: Span;
}

/** A comment that accepts findings of one code on the entry it belongs to. */
export interface Allowance {
  readonly code: string;
  readonly reason: string;
  readonly span: Span;
}

/** The comments that belong to a line: what they say, and which findings they accept. */
export interface Note {
  readonly text: string;
  /** Lines of the whole-line comments, first to last, without commented-out entries. */
  readonly lines: readonly number[];
  readonly allowances: readonly Allowance[];
}

export interface Script {
  readonly file: string;
  readonly tree: Tree;
  readonly kind: Tree["kind"];
  /** The name in the header, or the file's own name. */
  readonly name: string;
  readonly entries: readonly Entry[];
  readonly drops: readonly Drop[];
  readonly kept: readonly Kept[];
  readonly uses: readonly Use[];
  /** Sections as understood, with the line of each. `spec` is false for one nobody knows. */
  readonly sections: readonly {
    readonly section: string;
    readonly line: number;
    readonly known: boolean;
    readonly misplaced: boolean;
    /** It only takes back what earlier files said: a `drop all` and nothing else stands in it. */
    readonly cleared: boolean;
  }[];
  /** Everything found in this file by itself, in order of place. */
  readonly issues: readonly Issue[];
  /** The note of a line: of an entry, a drop, a `use`, a section's name or the header. */
  noteOf(line: number): Note;
}
