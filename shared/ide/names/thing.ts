/** What a word of a script is the name of. */
import type { Cols, Span } from "../../syntax/span.ts";

export type ThingKind =
  /** What the pilot names. */
  | "control"
  | "position"
  | "output"
  | "pack"
  /** A script or a board's text, by its path: what a header, a `use` or a line of the board names. */
  | "file"
  /** A dialect by the name in its header, as `verbatim` names it. */
  | "dialect"
  /** In a dialect: a code, one of the parts of its bits, a slot. */
  | "code"
  | "part"
  | "slot"
  /** What the language and the catalogue name. */
  | "mode"
  | "setting"
  | "field"
  | "choice"
  | "element"
  | "section"
  | "unit"
  | "channel"
  | "rule";

/** Equal in kind, name and `of`: one thing in one script, and in those that share it. */
export interface Thing {
  readonly kind: ThingKind;
  /** For a file its path; else as it is written, without quotes. */
  readonly name: string;
  /**
   * What it belongs to: the control of a position, the section of a setting, `SECTION.SETTING` of a field or a choice,
   * the code of a part, the group of lines of a slot; "" for all else.
   */
  readonly of: string;
}

/** A name as one line says it. The columns are those of the name alone, without quotes. */
export interface Named extends Cols {
  readonly thing: Thing;
  /**
   * `defines`: a line that says what the thing is. `writes`: a line that sets or drops it, or a heading. `reads`: any
   * other that names it.
   */
  readonly does: "defines" | "writes" | "reads";
  /** How the name is written where it stands: as a bare word, within quotes, or as a path within quotes. */
  readonly as: "word" | "quoted" | "path";
}

/** A name with its line. */
export type Occurrence = Named & Span;

/** A name in some file. */
export interface Place extends Occurrence {
  readonly file: string;
}

/** Names that the language or the catalogue fixes: nobody but they can give another. */
const FIXED: ReadonlySet<ThingKind> = new Set([
  "mode",
  "setting",
  "field",
  "choice",
  "element",
  "section",
  "unit",
  "channel",
  "rule",
]);

/** Whether a name is one that no pilot chose. */
export function isFixed({ kind }: Thing): boolean {
  return FIXED.has(kind);
}

/** Whether all that names a thing of this kind stands in one file. */
export function staysInFile({ kind }: Thing): boolean {
  return kind === "code" || kind === "part" || kind === "slot";
}

export function sameThing(a: Thing, b: Thing): boolean {
  return a.name === b.name && a.kind === b.kind && a.of === b.of;
}

export function thing(kind: ThingKind, name: string, of = ""): Thing {
  return { kind, name, of };
}

export function named(what: Thing, { start, end }: Cols, does: Named["does"], as: Named["as"] = "word"): Named {
  return { thing: what, start, end, does, as };
}
