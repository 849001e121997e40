/**
 * The lossless tree of a script: its lines, byte for byte, and what each of them is. A line's
 * node knows nothing of its neighbours, so equal lines can share one node.
 */
import type { Cols, Fix, Span } from "./span.ts";

export type FileKind = "craft" | "layer" | "handset" | "dialect";

/** A word of the script and its columns in the line. */
export interface Word extends Cols {
  readonly text: string;
}

/** A string literal: `text` is its content, start and end include the quotes. */
export interface Quoted extends Cols {
  readonly text: string;
}

/** What is wrong with one line by the grammar alone. `repair` is the one certain repair, if there is one. */
export interface LineIssue extends Cols {
  readonly code: "syntax" | "edition-newer";
  readonly message: string;
  readonly repair?: Cols & { readonly title: string; readonly text: string; readonly doubtful?: true };
}

export type LineNode =
  | { readonly kind: "blank" }
  /** A whole-line comment; `text` is what follows the `#`. */
  | { readonly kind: "comment"; readonly text: string }
  | {
      readonly kind: "header";
      readonly word: Word;
      readonly fileKind: FileKind;
      readonly name: Quoted | null;
      readonly edition: number;
    }
  | { readonly kind: "use"; readonly word: Word; readonly path: Quoted | null }
  | { readonly kind: "section"; readonly name: Word; readonly title: Quoted | null }
  | EntryNode
  | { readonly kind: "drop"; readonly word: Word; readonly all: Word | null; readonly names: readonly Word[] }
  /** A kept line of board text: all that follows the `|`. */
  | { readonly kind: "kept"; readonly text: string; readonly bar: number }
  /** An indented line of a dialect, without its comment: `shared/dialect` reads it, by its section. */
  | { readonly kind: "fact"; readonly content: Cols }
  /** A line that does not parse; its issue says why. */
  | { readonly kind: "stray" }
  /** A line of an unresolved merge: a marker, or a line of the side that is not parsed. */
  | { readonly kind: "conflict" };

/** `head` is a name or a control; start and end of `value` bound what follows it, without the comment. */
export interface EntryNode {
  readonly kind: "entry";
  readonly head: Word;
  readonly value: Cols;
  /** Where the line, in plain characters, ends with a number and perhaps a unit, or with a word: left out for any other. */
  readonly plain?: PlainEnd;
}

/** A number as it is written, and the column of what stands behind it, -1 where nothing does; null for a word. */
export interface PlainEnd {
  readonly digits: string | null;
  readonly unitAt: number;
}

export interface Line {
  readonly text: string;
  readonly node: LineNode;
  /** The comment at the end of the line (for a whole-line comment: the line), from its `#`. */
  readonly comment: Cols | null;
  readonly issues: readonly LineIssue[];
  /** It has nothing but letters, figures and signs of ASCII, spaces and tabs. */
  readonly isPlain: boolean;
  /** What was made of the line last, for whoever reads what it means: kept here, as it goes when the line goes. */
  meaning: unknown;
}

export type LineEnd = "" | "\n" | "\r\n" | "\r";

/** A section, with the numbers of the lines of its entries, drops, kept lines and facts. */
export interface Section {
  readonly line: number;
  readonly name: string;
  readonly title: string | null;
  readonly entries: readonly number[];
}

export interface SyntaxIssue {
  readonly code: "syntax" | "edition-newer";
  readonly message: string;
  readonly span: Span;
  readonly fix?: Fix;
}

export interface Tree {
  readonly bom: boolean;
  readonly lines: readonly Line[];
  readonly ends: readonly LineEnd[];
  /** The line of the header, or null: the file is then read as a layer. */
  readonly header: number | null;
  readonly kind: FileKind;
  readonly name: string | null;
  /** True for an edition that this version does not know: the rest of the file was not parsed. */
  readonly newer: boolean;
  /** Lines that hold a `use`. */
  readonly uses: readonly number[];
  readonly sections: readonly Section[];
  readonly issues: readonly SyntaxIssue[];
}
