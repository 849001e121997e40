/** Findings as plain data: lines and characters count from 0, in UTF-16 code units; ends are exclusive. */

export type Severity = "error" | "warning" | "info" | "hint";

export interface Place {
  readonly line: number;
  readonly character: number;
}

export interface PlaceRange {
  readonly start: Place;
  readonly end: Place;
}

export interface RelatedPlace {
  readonly message: string;
  readonly file: string;
  readonly range: PlaceRange;
}

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly file: string;
  readonly range: PlaceRange;
  readonly related: readonly RelatedPlace[];
  readonly fixes: readonly {
    readonly title: string;
    readonly edits: readonly { readonly file: string; readonly range: PlaceRange; readonly text: string }[];
    /** True where nothing else can have been meant, so that it may be made without asking. */
    readonly certain?: true;
  }[];
  /** Positions of the controls in which the finding occurs: a position's name, or a pulse in us. */
  readonly witness?: Readonly<Record<string, string | number>>;
}

/** A line of a script; `file` is the id by which the editor knows it. */
export interface LinePlace {
  readonly file: string;
  readonly line: number;
}
