/** Findings as they leave the core: plain data, places from 0 in UTF-16, ends exclusive. */

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
  }[];
  /** A set of positions that shows the finding: a position's name, or a pulse in us. */
  readonly witness?: Readonly<Record<string, string | number>>;
}

/** A line of a script, by the id under which the editor knows the file. */
export interface LinePlace {
  readonly file: string;
  readonly line: number;
}
