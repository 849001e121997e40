/** The history of a value: who changed it when, and what it was. */
import type { Uri } from "./addresses.ts";
import type { Refused } from "./file-edits.ts";
import type { LinePlace, Place } from "./findings.ts";

/** `fettle/history`: the commits that changed what the name at a position comes to on a craft, the last first. */
export const HISTORY_REQUEST = "fettle/history";
export interface HistoryParams {
  readonly uri: Uri;
  readonly position: Place;
  /** Of several craft that use the file, the one that is meant. */
  readonly craft?: Uri | undefined;
}
export type HistoryResult =
  | {
      readonly kind: "history";
      /** SECTION.NAME. */
      readonly what: string;
      readonly craft: { readonly name: string; readonly uri: Uri };
      /** What it comes to now, in a few words. */
      readonly now: string;
      readonly rows: readonly HistoryRow[];
      /** What is to be known of it, a sentence each. */
      readonly notes: readonly string[];
    }
  | Refused;

/** A commit that changed the value, or what is not committed yet. */
export interface HistoryRow {
  /** A name of the commit that is long enough; null where it is not committed yet. */
  readonly commit: string | null;
  readonly author: string | null;
  /** The day on which its author wrote it, such as 2026-03-05; null where that is not known. */
  readonly day: string | null;
  /** The first line of the message. */
  readonly subject: string;
  /** What it was and what it became, such as “3.4 V/cell → 3.5 V/cell”. */
  readonly words: string;
  readonly note: string;
  /** The line that says it, in a text as it was then; null where none does. */
  readonly at: LinePlace | null;
  /** The same file as it was before; null where there was none. */
  readonly before: Uri | null;
}

/** `fettle/log` (server to client): the commits of some files, the last first, where the server has no git of its own. */
export const LOG_REQUEST = "fettle/log";
export interface LogParams {
  readonly uris: readonly Uri[];
}
export type LogResult =
  | { readonly kind: "commits"; readonly commits: readonly LoggedCommit[] }
  /** Why there are none, in a sentence. */
  | { readonly kind: "none"; readonly why: string };

export interface LoggedCommit {
  readonly id: string;
  readonly author: string | null;
  /** When its author wrote it, in ISO 8601. */
  readonly date: string | null;
  readonly subject: string;
}
