/** A board's text in the editor: what each line of it means, lines that are named, and craft written as board text. */
import type { Uri } from "./addresses.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { LinePlace } from "./findings.ts";

/** A board's text as the editor has it; it need not be saved anywhere. */
export interface BoardText {
  readonly uri: Uri;
  readonly text: string;
  /** The dialect that the pilot chose for it; null for the one that knows it. */
  readonly dialect: Uri | null;
}

export interface NamedDialect {
  readonly uri: Uri;
  readonly name: string;
}

/** `read`: its meaning is known · `odd`: nearly · `kept`: no line of the dialect reads it · `idle`: says nothing. */
export type BoardLineState = "read" | "odd" | "kept" | "idle";

/** A line of the text, from 0. */
export interface BoardLine {
  readonly line: number;
  readonly state: BoardLineState;
  /** The lines of the dialect, from 0. */
  readonly by: readonly number[];
  /** In our words, `SECTION NAME VALUE` each. */
  readonly says: readonly string[];
  readonly why: string | null;
}

/** `fettle/boardText`: what the lines of a text mean. */
export const BOARD_TEXT_REQUEST = "fettle/boardText";
export type BoardTextResult =
  | {
      readonly kind: "read";
      readonly dialect: NamedDialect;
      readonly lines: readonly BoardLine[];
      readonly counts: Readonly<Record<BoardLineState, number>>;
      /** The craft that name this text as their board's. */
      readonly craft: readonly { readonly uri: Uri; readonly name: string }[];
    }
  /** Several dialects know it: the pilot says which. */
  | { readonly kind: "several"; readonly dialects: readonly NamedDialect[] }
  /** It is no board's text, as far as any dialect knows. */
  | { readonly kind: "none" };

/** `fettle/boardDialects`: every dialect of the workspace. */
export const BOARD_DIALECTS_REQUEST = "fettle/boardDialects";
export interface BoardDialectsResult {
  readonly dialects: readonly NamedDialect[];
}

/** `fettle/boardLine`: a line of a text in our words, and where it leads. */
export const BOARD_LINE_REQUEST = "fettle/boardLine";
export interface BoardLineParams extends BoardText {
  /** From 0. */
  readonly line: number;
}
export interface BoardLineResult {
  readonly markdown: string;
  /** The lines of the dialect, then the lines of craft that name this text and say the same name. */
  readonly leadsTo: readonly LinePlace[];
}

/** `fettle/boardNames`: our names by plain words, each with the value that the craft of the text has. */
export const BOARD_NAMES_REQUEST = "fettle/boardNames";
export interface BoardNamesParams {
  readonly uri: Uri;
  readonly typed: string;
  /** The craft whose values are taken; null for the one that names the text. */
  readonly craft: Uri | null;
}
export interface BoardName {
  readonly section: string;
  readonly name: string;
  readonly summary: string;
  /** As the craft says it; null where it does not. */
  readonly value: string | null;
  /** How a value of it is written. */
  readonly example: string;
}
export interface BoardNamesResult {
  readonly names: readonly BoardName[];
  /** Whose values they are; null where no craft is known. */
  readonly craft: string | null;
}

/** `fettle/nameLine`: the lines of a dialect by which a board line would mean a value, the likeliest first. */
export const NAME_LINE_REQUEST = "fettle/nameLine";
export interface NameLineParams extends BoardText {
  readonly line: number;
  readonly section: string;
  readonly name: string;
  /** As a script writes it, without the name. */
  readonly value: string;
}
export interface NamedLine {
  /** The line of the dialect: left side and right side. */
  readonly fact: string;
  /** How the piece of the line is the value, in a few words. */
  readonly how: string;
  /** What else in the text that reads, in a few words. */
  readonly reads: string;
  /** The lines that are read by it and were not before, from 0. */
  readonly lines: readonly number[];
  /** It writes the fact into the dialect, or makes the dialect, as one step to undo. */
  readonly adopt: EditedFiles;
}
export type NameLineResult =
  | {
      readonly kind: "lines";
      readonly dialect: NamedDialect;
      /** Whether the dialect is there already. */
      readonly isNew: boolean;
      readonly offers: readonly NamedLine[];
    }
  | Refused;

/** `fettle/boardRead`: the script that a text becomes. */
export const BOARD_READ_REQUEST = "fettle/boardRead";
export interface BoardReadParams extends BoardText {
  /** The handset whose controls the channels are; null where none is said. */
  readonly handset: Uri | null;
}
export type BoardReadResult =
  | {
      readonly kind: "script";
      /** Beside the text; it may be taken. */
      readonly proposed: Uri;
      readonly text: string;
      readonly counts: Readonly<Record<BoardLineState, number>>;
      readonly notes: readonly string[];
    }
  | Refused;

/** `fettle/boardOf`: the dialect and the last saved text that a craft names. */
export const BOARD_OF_REQUEST = "fettle/boardOf";
export interface BoardOfParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
}
export type BoardOfResult =
  | {
      readonly kind: "board";
      readonly craft: { readonly uri: Uri; readonly name: string };
      readonly dialect: NamedDialect;
      /** Null where the craft names none. */
      readonly base: Uri | null;
    }
  | Refused;

/** `fettle/boardWrite`: a craft as text for its board. */
export const BOARD_WRITE_REQUEST = "fettle/boardWrite";
export interface BoardWriteParams {
  readonly craft: Uri;
  readonly dialect: Uri;
  /** The board's last saved text; null without. */
  readonly base: string | null;
}

/** Something to know before the text is sent. */
export interface BoardRemark {
  readonly kind: "cannot" | "by-hand" | "rounded" | "curve" | "filled" | "unsaid" | "only-base" | "note";
  /** SECTION NAME, or a line of the board. */
  readonly what: string;
  readonly words: string;
  readonly at: LinePlace | null;
}
export type BoardWriteResult =
  | {
      readonly kind: "written";
      readonly text: string;
      /** Empty where nothing changed. */
      readonly changes: string;
      readonly changedLines: number;
      readonly remarks: readonly BoardRemark[];
    }
  | Refused;

/** `fettle/boardMoved`: the lines that differ between two saved texts. */
export const BOARD_MOVED_REQUEST = "fettle/boardMoved";
export interface BoardMovedParams {
  readonly before: string;
  readonly after: string;
}
export interface BoardMovedResult {
  readonly moved: readonly {
    readonly before: { readonly line: number; readonly text: string } | null;
    readonly after: { readonly line: number; readonly text: string } | null;
  }[];
}

/** The client's commands, which the words above a text lead to. */
export const BOARD_COMMANDS = {
  chooseDialect: "fettle.readTextByDialect",
  nameLine: "fettle.nameLine",
  read: "fettle.boardRead",
  review: "fettle.boardReview",
  moved: "fettle.boardMoved",
  copy: "fettle.boardCopy",
  copyChanges: "fettle.boardCopyChanges",
  save: "fettle.boardSave",
} as const;
