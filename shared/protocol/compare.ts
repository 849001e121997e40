/** Two configurations compared in meaning, and what is taken from one into the other. */
import type { Uri } from "./addresses.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { LinePlace } from "./findings.ts";

/** The other side of a comparison or a review, as a client names it. */
export type OtherSide =
  /** A script of the workspace as it is now: a craft, or a layer by itself. */
  | { readonly kind: "file"; readonly uri: Uri }
  /** A script, with all that it uses, as a revision of git has it; the client reads it (`fettle/revision`). */
  | { readonly kind: "revision"; readonly uri: Uri; readonly revision: string }
  /** A text that lies nowhere: of the clipboard, a selection, or dropped. `name` says where it is from. */
  | { readonly kind: "text"; readonly text: string; readonly name: string }
  /** A board's text, read by a dialect; `uri` is where the editor has it. */
  | {
      readonly kind: "board";
      readonly text: string;
      readonly name: string;
      readonly uri: Uri;
      readonly dialect: Uri;
    };

export type DifferenceKind = "setting" | "mode" | "output" | "osd" | "control" | "handset";
export type Risk = "high" | "medium" | "low";

/** Something that two craft do not have alike. */
export interface DifferenceRow {
  /** SECTION.NAME, such as `modes.arm`, `pack/Winter.cells` or `osd.pack-volts`. */
  readonly what: string;
  readonly kind: DifferenceKind;
  readonly risk: Risk;
  /** What it is, in a few words. */
  readonly summary: string;
  /** The canonical text on each side; null where that side does not have it. */
  readonly mine: string | null;
  readonly theirs: string | null;
  /** The difference in words, such as “arm moves from TL down to SR up”. */
  readonly words: string;
  /** The lines; null where that side does not have it. */
  readonly mineAt: LinePlace | null;
  readonly theirsAt: LinePlace | null;
  /** Why it cannot be taken over, in a sentence; null where it can. */
  readonly notTaken: string | null;
}

/** `fettle/compare`: what differs between the craft of a document and another side, riskiest first. */
export const COMPARE_REQUEST = "fettle/compare";
export interface CompareParams {
  readonly uri: Uri;
  /** Of several craft that use the file, the one that is meant. */
  readonly craft?: Uri | undefined;
  readonly other: OtherSide;
}
export type CompareResult =
  | {
      readonly kind: "differences";
      readonly mine: { readonly name: string; readonly uri: Uri };
      /** Lines of a text that lies nowhere, or of a revision, have addresses of the scheme `OTHER_SCHEME`. */
      readonly theirs: { readonly name: string; readonly uri: Uri };
      readonly rows: readonly DifferenceRow[];
      /** What is to be known of the comparison, a sentence each: other handsets, parts that are missing. */
      readonly notes: readonly string[];
    }
  | Refused;

/** `fettle/take`: the edits that make some of these the same as on the other side. */
export const TAKE_REQUEST = "fettle/take";
export interface TakeParams extends CompareParams {
  /** As in `DifferenceRow.what`. */
  readonly whats: readonly string[];
}
export type TakeResult =
  | (EditedFiles & {
      /** What was asked for and stays as it is, each with the reason in a sentence. */
      readonly left: readonly { readonly what: string; readonly message: string }[];
    })
  | Refused;

/** The scheme of read-only documents that show the text of another side: a revision, or a paste. */
export const OTHER_SCHEME = "fettle-other";

/** `fettle/revision` (server to client): the text of a file at a revision of git. */
export const REVISION_REQUEST = "fettle/revision";
export interface RevisionParams {
  readonly uri: Uri;
  readonly revision: string;
}

/** The text as git has it; `missing` where the file is not in that revision, or there is no such revision. */
export type RevisionResult =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "missing" }
  | { readonly kind: "unreadable"; readonly why: string };
