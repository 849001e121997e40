/**
 * What a dialect says, once it is read from its file: how lines of one board's text and entries of scripts map onto
 * each other. Only data; `pattern/` matches and fills left sides, `codes/` decodes and encodes slots.
 *
 * Words: a *left side* is a line of board text with slots; a *right side* is the entry that it means; a *fact* is a
 * line of the dialect; a *meaning* is a right side with the left sides that together say it.
 */
import type { Cols, Fix, Span } from "../syntax/span.ts";
import type { Formula } from "./curves/formula-tree.ts";
import type { Exact } from "./exact.ts";

export interface Dialect {
  readonly file: string;
  readonly name: string;
  readonly text: TextFacts;
  readonly codes: ReadonlyMap<string, Code>;
  /** Left sides in the order in which they are tried: file order, those under a heading before those without. */
  readonly lefts: readonly Left[];
  /** Every right side with its left sides, in file order. */
  readonly meanings: readonly Meaning[];
  /** What the board has no line for, and that is never reported. */
  readonly cannot: readonly Cannot[];
  readonly issues: readonly DialectIssue[];
}

/** The section `text`: how the board's text is built as a whole. Lists hold what repeated facts say, in order. */
export interface TextFacts {
  readonly knownBy: readonly string[];
  readonly comments: readonly string[];
  /** `loose`: a blank stands for one or more, and none counts at the ends of a line. */
  readonly blanks: "loose" | "exact";
  readonly ends: "lf" | "crlf" | null;
  readonly opening: readonly string[];
  readonly closing: readonly string[];
  /** Patterns of lines that are headings even if no `under` names them. */
  readonly headings: readonly Pattern[];
  /** Board lines that begin so add up; of others the later one counts. */
  readonly repeats: readonly string[];
  readonly atMost: readonly { readonly text: string; readonly count: number; readonly line: number }[];
  /** Most characters in a board line; null where it is not said. */
  readonly longest: number | null;
}

/** A left side, or the T of a `heading` or `under`: text and slots. */
export interface Pattern {
  /** As the board would write it, slots as `{NAME}` without code and default: equal for equal left sides. */
  readonly key: string;
  readonly parts: readonly (Literal | SlotPart)[];
  /** By name, in order of first appearance; the number is named `#`. */
  readonly slots: ReadonlyMap<string, Slot>;
  /** Where it stands in the dialect, quotes included; the first of equal ones. */
  readonly at: Span;
}

export interface Literal {
  readonly kind: "literal";
  readonly text: string;
}

/** One appearance of a slot. A slot that is named twice holds the same both times. */
export interface SlotPart {
  readonly kind: "slot";
  readonly name: string;
  /** The columns of `{NAME…}` in the dialect's line `Pattern.at`. */
  readonly at: Cols;
}

export interface Slot {
  readonly name: string;
  readonly code: Code | null;
  /** Bounds of whole numbers, as in `{n:1 to 8}`, both included. */
  readonly whole: { readonly from: number; readonly to: number } | null;
  /** As the board spells it. */
  readonly default: string | null;
}

/** A left side, once for all facts that have it. */
export interface Left {
  readonly pattern: Pattern;
  /** The heading below which it counts: `null` above all headings or anywhere. */
  readonly under: Under;
  /** What a board line of this kind says: several entries where several facts have the same left side. */
  readonly meanings: readonly Meaning[];
  /** Slots and named bits (`SLOT.PART`) that no right side uses: *beside*. */
  readonly beside: readonly string[];
}

export type Under =
  /** The section says nothing of headings: tried last, whatever heading is open. */
  | { readonly kind: "anywhere" }
  /** `under ""` */
  | { readonly kind: "above-all" }
  | { readonly kind: "heading"; readonly pattern: Pattern };

export interface Meaning {
  /** The fact's line in the dialect, from 0. */
  readonly line: number;
  /** `pack`, `modes`, `rates-second`, … as in a script. */
  readonly section: string;
  /** The title of the section with its slots, as in `pack "{n}"`; null without. */
  readonly title: Template | null;
  /** Several where several board lines mean one entry together. */
  readonly lefts: readonly Left[];
  readonly right: Right;
  /** The columns of the right side. */
  readonly at: Cols;
}

/** A slot, or one part of it, in a right side: `{p}`, `{p.row}`. */
export interface Ref {
  readonly slot: string;
  readonly part: string | null;
}

/** Text with slots in it: `motor{n}`, `"#{c}"`. */
export type Template = readonly (string | Ref)[];

/** What the entry's name is, and how its value is made of slots. */
export interface Right {
  /** Empty where the right side is `unset` alone: the line says that nothing is set, whatever its slots hold. */
  readonly name: Template;
  readonly value: ValueTemplate;
}

export type ValueTemplate =
  /** One slot, or the sum of several, largest step first; `unit` as it stands behind on the right, "" without. */
  | { readonly kind: "value"; readonly terms: readonly Ref[]; readonly unit: string }
  /** The same value whatever the slots hold; as a script would write it. */
  | { readonly kind: "constant"; readonly text: string }
  /** Text in quotes, made of text and slots. */
  | { readonly kind: "text"; readonly parts: Template }
  /** A word made of text and slots, as `motor{n}`. */
  | { readonly kind: "word"; readonly parts: Template }
  | { readonly kind: "fields"; readonly fields: readonly { readonly name: Template; readonly value: ValueTemplate }[] }
  | { readonly kind: "cell"; readonly column: ValueTemplate; readonly row: ValueTemplate }
  | { readonly kind: "range"; readonly from: ValueTemplate; readonly to: ValueTemplate }
  | { readonly kind: "size"; readonly columns: ValueTemplate; readonly rows: ValueTemplate }
  /** Items with commas between them. */
  | { readonly kind: "list"; readonly items: readonly ValueTemplate[] }
  /** Words with blanks between them. */
  | { readonly kind: "order"; readonly items: readonly ValueTemplate[] }
  | { readonly kind: "condition"; readonly shape: Shape }
  | { readonly kind: "curve"; readonly formula: Formula }
  | { readonly kind: "follows"; readonly dial: Ref; readonly from: ValueTemplate; readonly to: ValueTemplate }
  /** `NAME unset`: the line says that nothing is set. */
  | { readonly kind: "unset" };

/** The part of a right side behind `when`. */
export type Shape =
  | { readonly kind: "ranges"; readonly ranges: readonly RangeShape[] }
  | { readonly kind: "mode"; readonly mode: Ref | string }
  | { readonly kind: "always" };

/** `{c} in {a} to {b}`: the channel and the ends may be slots, or stand there as they are. */
export interface RangeShape {
  readonly channel: Ref | number;
  readonly from: Ref | number;
  readonly to: Ref | number;
}

/** `cannot NAME…` in a section; `names` null for `cannot all`. */
export interface Cannot {
  readonly section: string;
  readonly names: readonly string[] | null;
  readonly line: number;
}

// --- Codes -------------------------------------------------------------------------

interface CodeFacts {
  readonly name: string;
  /** The lines that define it, from 0. */
  readonly lines: readonly number[];
}

/** How a number is spelled: `base 16`, `digits 4` (padded with noughts). */
export interface Digits {
  /** 2 to 36; 10 unless said. */
  readonly base: number;
  readonly digits: number | null;
}

/** The board writes n for from + n × each (`into`: into / n). */
export interface NumberCode extends CodeFacts, Digits {
  readonly kind: "number";
  /** The bounds of n, both included. */
  readonly least: Exact | null;
  readonly most: Exact | null;
  readonly from: Exact;
  readonly each: Exact;
  /** The unit of `from`, `each` and `into`; "" for bare numbers and channels. */
  readonly unit: string;
  /** `from ch5`: values are channels. */
  readonly channels: boolean;
  /** `into V`: the board writes V / n. */
  readonly into: Exact | null;
  /** Decimal places that the board writes; 0 for whole numbers. */
  readonly places: number;
  /** The n that means that nothing is set. */
  readonly unset: Exact | null;
}

export interface WordsCode extends CodeFacts {
  readonly kind: "words";
  /** What the board writes, and what a script does; `null` for `unset`. */
  readonly words: readonly { readonly theirs: string; readonly ours: string | null; readonly line: number }[];
}

/** An order with nothing between: `letters R roll, P pitch`. */
export interface LettersCode extends CodeFacts {
  readonly kind: "letters";
  readonly words: readonly { readonly theirs: string; readonly ours: string | null; readonly line: number }[];
}

export interface ListCode extends CodeFacts {
  readonly kind: "list";
  readonly of: Code;
  readonly by: string;
}

export interface BitsCode extends CodeFacts, Digits {
  readonly kind: "bits";
  readonly parts: readonly {
    /** The lowest and the highest bit, from 0. */
    readonly from: number;
    readonly to: number;
    readonly name: string;
    readonly code: Code | null;
  }[];
  /** `14 is 1 or unset`: the bit has this value, and any other means that nothing is set. */
  readonly fixed: readonly { readonly bit: number; readonly is: 0 | 1; readonly orUnset: boolean }[];
}

export interface SetCode extends CodeFacts, Digits {
  readonly kind: "set";
  readonly items: readonly { readonly bit: number; readonly ours: string; readonly line: number }[];
}

export interface TextCode extends CodeFacts {
  readonly kind: "text";
  /** Mark around the text; "" without. */
  readonly within: string;
  /** What stands before a mark or an escape that belongs to the text; "" without. */
  readonly escape: string;
  readonly longest: number | null;
}

export type Code = NumberCode | WordsCode | LettersCode | ListCode | BitsCode | SetCode | TextCode;

/** What a slot holds, in our words. Number and unit stay apart, so that sums and curves are exact. */
export type Held =
  | { readonly kind: "number"; readonly number: Exact; readonly unit: string }
  /** As a script writes it: a word, a name, `ch7` as the number 7 with `channel` true is a `number` without unit. */
  | { readonly kind: "word"; readonly text: string }
  /** Text without quotes. */
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly Held[] }
  | { readonly kind: "order"; readonly items: readonly Held[] }
  | { readonly kind: "parts"; readonly parts: ReadonlyMap<string, Held> }
  | { readonly kind: "unset" };

/** What a board line's slot means; `bad` says why it means nothing, as it continues “… is no value: ”. */
export type Decoded = Held | { readonly kind: "bad"; readonly why: string };

/** How the board writes a value. */
export type Encoded =
  /** `means` is what the board will understand, where that is not what was said: the nearest step. */
  | { readonly kind: "spelled"; readonly text: string; readonly means: Held | null }
  | { readonly kind: "cannot"; readonly why: string };

// --- Findings ----------------------------------------------------------------------

export type DialectCode =
  | "syntax"
  | "unknown-name"
  | "slot-unmatched"
  | "slot-endless"
  | "line-beaten"
  | "code-lossy"
  | "code-unused"
  | "lines-alike";

/** Something wrong with a dialect, found in its file alone. */
export interface DialectIssue {
  readonly code: DialectCode;
  readonly message: string;
  readonly span: Span;
  /** Repairs that are certain, and names that were most likely meant. */
  readonly fixes?: readonly Fix[];
  readonly related?: readonly { readonly message: string; readonly span: Span }[];
}
