/** What a pilot writes down on the bench list, and the requests that make edits of the craft of it. */
import type { Uri } from "./addresses.ts";
import type { EditedFiles, Refused } from "./file-edits.ts";
import type { Severity } from "./findings.ts";

export type BenchGesture =
  /** A check was made: its day, such as 2026-03-15, is written. `check` as SECTION.NAME. */
  | { readonly kind: "day"; readonly check: string; readonly day: string }
  /** What was read, as it was typed; an empty text takes it out. `name` as `BenchReading.name`. */
  | { readonly kind: "reading"; readonly name: string; readonly text: string }
  /** A check no longer holds: its day is taken out. */
  | { readonly kind: "void"; readonly check: string };

/** `fettle/benchEdit`: the edits of the craft for a gesture. */
export const BENCH_EDIT_REQUEST = "fettle/benchEdit";
export interface BenchEditParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  readonly gesture: BenchGesture;
}
/** `told`: in a sentence what is written, and where. */
export type BenchEditResult = (EditedFiles & { readonly told: string }) | Refused;

/** `fettle/benchReading`: what a text that is being typed would be read as; nothing is written. */
export const BENCH_READING_REQUEST = "fettle/benchReading";
export interface BenchReadingParams {
  readonly uri: Uri;
  readonly craft?: Uri | undefined;
  /** As `BenchReading.name`. */
  readonly name: string;
  readonly text: string;
}
export type BenchTrial =
  /** `text` in canonical spelling; `found`: what the rules would say of it, the gravest first. */
  | {
      readonly kind: "reads";
      readonly text: string;
      readonly found: readonly { readonly severity: Severity; readonly message: string }[];
    }
  /** Why it cannot be read, and what to write. */
  | { readonly kind: "unclear"; readonly message: string };
