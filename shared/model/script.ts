/** One file on its own: its tree, its entries with their values, its issues. */

import type { Piece } from "../syntax/piece.ts";
import type { Fix, Span } from "../syntax/span.ts";
import type { Tree, Word } from "../syntax/tree.ts";
import type { Value } from "../syntax/value.ts";

/** Codes of issues that can be found in one file on its own. */
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
  | "duplicate-entry";

/** An issue found in one file, before `allow` comments are applied. */
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
 * One entry: a name and, if it parsed without a fault, its value. An entry with a fault leaves its
 * name without value; the value of an earlier line or file does not apply.
 */
export interface Entry {
  readonly kind: EntryKind;
  /** Section as resolved: `pack`, `pack/NAME` for a named pack, `osd-second`, … */
  readonly section: string;
  readonly name: string;
  readonly line: number;
  readonly head: Word;
  readonly value: Value | null;
  /** Canonical spelling of the value; the text as written if it could not be parsed. */
  readonly text: string;
  readonly pieces: readonly Piece[];
}

/** What a `drop` removes: every name of the section (`all`), or those listed. */
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

/** An `allow` comment: it accepts findings of one code. */
export interface Allowance {
  readonly code: string;
  readonly reason: string;
  /** The comment from its `#`. */
  readonly span: Span;
  readonly codeSpan: Span;
  /**
   * Where it accepts: on the line in whose note it stands; if that is a section's name, in the whole section;
   * if it is the header, in the whole file. `nothing`: it stands above a blank line, in no note.
   */
  readonly holds: "line" | "section" | "file" | "nothing";
  /** The line in whose note it stands. */
  readonly line: number;
  /** As resolved, where it holds in a section. */
  readonly section: string | null;
}

/** The comments that belong to a line; `text` is without those that accept a finding. */
export interface Note {
  readonly text: string;
  /** Lines of the whole-line comments, first to last, without commented-out entries. */
  readonly lines: readonly number[];
}

/** One section of a file as it is read: the same object as before the last edit where no line of it has changed. */
export interface SectionReading {
  readonly about: Script["sections"][number];
  readonly entries: readonly Entry[];
  /** Two of its entries have one name. */
  readonly hasNamesakes: boolean;
  readonly drops: readonly Drop[];
  readonly kept: readonly Kept[];
  readonly issues: readonly Issue[];
}

export interface Script {
  readonly file: string;
  readonly tree: Tree;
  readonly kind: Tree["kind"];
  /** The name in the header, or the file's own name. */
  readonly name: string;
  /** Section by section, in their order. */
  readonly readings: readonly SectionReading[];
  readonly entries: readonly Entry[];
  readonly drops: readonly Drop[];
  readonly kept: readonly Kept[];
  readonly uses: readonly Use[];
  /** The sections with their lines. `known` is false for one that the catalogue does not have. */
  readonly sections: readonly {
    readonly section: string;
    readonly line: number;
    readonly known: boolean;
    readonly misplaced: boolean;
    /** It only removes what earlier files set: it contains `drop all` and nothing else. */
    readonly cleared: boolean;
  }[];
  /** Every issue of this file on its own, in order of location. */
  readonly issues: readonly Issue[];
  /** Every `allow` in its comments, in order of line. */
  readonly allowances: readonly Allowance[];
  /** The note of a line: of an entry, a drop, a `use`, a section's name or the header. */
  noteOf(line: number): Note;
}
