/** A text of somebody else, or another craft, held against a craft line by line, and what is adopted of it. */
import type { Uri } from "./addresses.ts";
import type { DifferenceKind, OtherSide } from "./compare.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { Finding, LinePlace } from "./findings.ts";
import type { MappingRow } from "./map-controls.ts";

/**
 * `dangerous`: arming, failsafe, ports, mounts, motors, the link, or what brings a warning or an error ·
 * `differs` · `same` · `unknown`: not understood, so never adopted but as kept board text.
 */
export type ReviewClass = "dangerous" | "differs" | "same" | "unknown";

export interface ReviewRow {
  /** SECTION.NAME as in a comparison; of a line that was not understood `line N`, counted from 1. */
  readonly what: string;
  readonly class: ReviewClass;
  readonly kind: DifferenceKind | null;
  /** What the catalogue says of it; of modes and elements `taste`, of controls and outputs `hardware`. */
  readonly nature: "hardware" | "taste" | "safety" | null;
  /** Lines of the offered text, from 0. */
  readonly lines: readonly number[];
  /** Those lines as they are written, hidden characters shown. */
  readonly written: string;
  readonly mine: string | null;
  /** What it would become: canonical, with the controls of this craft. */
  readonly theirs: string | null;
  /** In words: why it is dangerous, what differs, or why it was not understood. */
  readonly words: string;
  readonly mineAt: LinePlace | null;
  /** Whether it is chosen: as asked, or by the preselection. */
  readonly chosen: boolean;
  /** Why it cannot be adopted, in a sentence; null where it can. */
  readonly notTaken: string | null;
}

/** Where a review can write; `new-layer` is a file that does not exist yet, and that the craft will use. */
export interface ReviewTarget {
  readonly uri: Uri;
  readonly name: string;
  readonly kind: "craft" | "layer" | "new-layer";
  /** Other craft that use it. */
  readonly alsoIn: readonly string[];
}

/** A character that does not show, or shows as another, with what it is in words. */
export interface HiddenCharacter {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly kind: "direction" | "invisible" | "look-alike";
  readonly words: string;
}

/** What has to be measured or checked anew on this craft, and the line where the reading goes. */
export interface MeasureRow {
  readonly what: string;
  readonly words: string;
  /** The line that holds the reading now, or the line after which it would be written. */
  readonly at: LinePlace;
  readonly isWritten: boolean;
}

/** `fettle/review`: the rows, what would come of those that are chosen, and the edits that adopt them. */
export const REVIEW_REQUEST = "fettle/review";
export interface ReviewParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  readonly offer: OtherSide;
  /** `carry`: the offer is a craft of one's own whose taste and safety go along, and its hardware and tune stay. */
  readonly purpose: "review" | "carry";
  /** Null: what is preselected. */
  readonly chosen: readonly string[] | null;
  /** By control of theirs: what the pilot chose for it; null leaves it as it is. */
  readonly mapping: Readonly<Record<string, string | null>>;
  /** Where it is written; null: the craft itself. */
  readonly into: Uri | null;
  /** Lines not understood that are chosen too are kept as text of this board. */
  readonly dialect: string;
}
export type ReviewResult =
  | {
      readonly kind: "review";
      readonly mine: { readonly name: string; readonly uri: Uri };
      readonly theirs: { readonly name: string; readonly uri: Uri };
      readonly rows: readonly ReviewRow[];
      /** Where it comes from another board, size, chemistry or handset, a sentence each. */
      readonly warnings: readonly string[];
      readonly mapping: readonly MappingRow[];
      readonly targets: readonly ReviewTarget[];
      readonly into: Uri;
      /** Findings of the craft as if the chosen rows were adopted, those that are new first. */
      readonly findings: readonly (Finding & { readonly isNew: boolean; readonly what: string | null })[];
      /** How many findings of now would be gone. */
      readonly gone: number;
      readonly hidden: readonly HiddenCharacter[];
      readonly measure: readonly MeasureRow[];
      /** The edits that adopt what is chosen, as one step; refused where nothing is chosen or nothing can be written. */
      readonly adopt: EditedFiles | Refused;
    }
  /** It is no script: what it looks like, in a sentence. */
  | { readonly kind: "no-script"; readonly looksLike: string; readonly hidden: readonly HiddenCharacter[] }
  | Refused;
