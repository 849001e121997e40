/** What the benchmark measured, as it is kept for the page of the reference. */

/** Median, least and most of several rounds. */
export type Rounds = readonly [median: number, least: number, most: number];

/** Where and when it was measured. */
export interface Conditions {
  /** YYYY-MM-DD */
  readonly day: string;
  readonly cores: number;
  readonly node: string;
  readonly system: string;
}

export interface PeerRow {
  readonly figure: string;
  readonly unit: "ms" | "MB";
  readonly ours: Rounds;
  readonly theirs: Rounds;
  /** Ours over theirs, round by round. */
  readonly ratio: Rounds;
  /** What the ratio is to be at most; null where nothing is asked. */
  readonly aim: number | null;
  /** What our own figure is to be at most, where something is asked of it by itself. */
  readonly mostMs?: number;
}

/** Whether a row has missed what is asked of it. */
export const isMissed = ({ ours, ratio, aim, mostMs }: PeerRow): boolean =>
  (aim !== null && ratio[0] > aim) || (mostMs !== undefined && ours[0] > mostMs);

/** The same work through both servers, at one size of the text. */
export interface PeerSize {
  readonly lines: number;
  readonly settings: number;
  readonly rows: readonly PeerRow[];
}

export interface KeptPeer extends Conditions {
  readonly rounds: number;
  readonly sizes: readonly PeerSize[];
}

export interface GrowthCurve {
  readonly figure: string;
  readonly unit: "ms" | "MB";
  /** One for each size. */
  readonly values: readonly Rounds[];
  /** Of the size, over the upper part of the curve: 1 is a straight line. */
  readonly exponent: number;
}

export interface GrowthSubject {
  readonly name: string;
  readonly what: string;
  readonly sizes: readonly number[];
  readonly curves: readonly GrowthCurve[];
}

export interface KeptGrowth extends Conditions {
  readonly rounds: number;
  readonly subjects: readonly GrowthSubject[];
}
