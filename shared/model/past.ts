/** What git knows of a craft's checks on the bench: what they cover, as it was when they were made. */

/** A commit, as it is told of. */
export interface CommitWords {
  readonly id: string;
  readonly author: string;
  /** The day on which its author wrote it, such as 2026-03-05. */
  readonly day: string;
  /** The first line of the message. */
  readonly subject: string;
}

/** Something that a check covers, at one moment. */
export interface CoveredValue {
  /** In canonical spelling. */
  readonly text: string;
  /** Equal for values that are the same, however they are written; null where nothing is known of it. */
  readonly meaning: string | null;
}

/** A check of one day, with what it covers as it was on that day. */
export interface PastCheck {
  /** Its day, as it is committed. */
  readonly day: string;
  /** What it covers, as the last commit of that day has it, or the one that first said the day. */
  readonly onDay: ReadonlyMap<string, CoveredValue>;
  /** What has become something else since then, with the last commit that made it so; what is committed now. */
  readonly since: ReadonlyMap<string, { readonly commit: CommitWords; readonly value: CoveredValue | null }>;
}

/** By the check, as SECTION.NAME. Those that are not here were not made by what is committed. */
export type PastChecks = ReadonlyMap<string, PastCheck>;
