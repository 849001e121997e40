/** The history of a value as plain data: what the command line prints as JSON, and what an editor lists. */
import type { FilePath } from "../../model/files.ts";
import type { Moment, ValueChange, ValueHistory } from "./history.ts";
import { type PastValue, placeOf } from "./past-value.ts";

/** A value at one moment. */
export interface ReportedValue {
  /** In canonical spelling; null where no line says it, or it is not known. */
  readonly text: string | null;
  /** Why it is not known; null where it is. */
  readonly unknown: string | null;
}

export interface ReportedChange {
  /** Null where it is not committed yet. */
  readonly commit: string | null;
  readonly author: string | null;
  /** When its author wrote it, in ISO 8601. */
  readonly date: string | null;
  /** The first line of the message. */
  readonly subject: string;
  readonly before: ReportedValue;
  readonly after: ReportedValue;
  /** The line that says it, or takes it back, as that commit had it; lines from 0. */
  readonly file: string | null;
  readonly line: number | null;
  readonly note: string;
  /** The same, written otherwise. */
  readonly respelled: boolean;
  /** False where a later merge kept another value. */
  readonly kept: boolean;
}

export interface HistoryReport {
  /** SECTION.NAME. */
  readonly what: string;
  readonly craft: string;
  readonly now: ReportedValue;
  /** The last change first. */
  readonly changes: readonly ReportedChange[];
  /** What is to be known of it, a sentence each. */
  readonly notes: readonly string[];
}

/** What a commit is told by. */
export interface CommitWords {
  readonly id: string;
  readonly author: string;
  readonly date: string;
  readonly subject: string;
}

interface About<M extends Moment> {
  readonly what: string;
  readonly craft: string;
  readonly notes: readonly string[];
  /** Null for what is not committed. */
  commitOf(moment: M): CommitWords | null;
  /** The name under which a file is reported. */
  nameOf(file: FilePath): string;
}

/** A history as plain data. */
export function historyReport<M extends Moment>(history: ValueHistory<M>, about: About<M>): HistoryReport {
  return {
    what: about.what,
    craft: about.craft,
    now: reported(history.now),
    changes: history.changes.map((change) => reportedChange(change, about)),
    notes: about.notes,
  };
}

function reportedChange<M extends Moment>(change: ValueChange<M>, about: About<M>): ReportedChange {
  const commit = about.commitOf(change.at);
  const at = placeOf(change.after, change.before);
  return {
    commit: commit?.id ?? null,
    author: commit?.author ?? null,
    date: commit?.date ?? null,
    subject: commit?.subject ?? "not committed yet",
    before: reported(change.before),
    after: reported(change.after),
    file: at && about.nameOf(at.file),
    line: at?.line ?? null,
    note: change.after.kind === "said" ? change.after.note : "",
    respelled: change.isRespelled,
    kept: change.isKept,
  };
}

function reported(value: PastValue): ReportedValue {
  if (value.kind === "said") return { text: value.text, unknown: null };
  return { text: null, unknown: value.kind === "unknown" ? value.why : null };
}
