/** What reading and writing board text give, as the command line prints it. */
import type { Reading } from "../../dialect/read/reading.ts";
import type { Written } from "../../dialect/write/written.ts";

export interface BoardReadReport {
  readonly script: string;
  readonly lines: readonly {
    /** From 0. */
    readonly line: number;
    readonly state: "read" | "odd" | "kept" | "idle";
    /** Lines of the dialect, from 0. */
    readonly by: readonly number[];
    readonly says: readonly string[];
    readonly why: string | null;
  }[];
  readonly notes: readonly string[];
}

/** Nobody feels less than this. */
const LEAST_DEG_S = 0.1;

export function boardReadReport({ script, lines, notes, curves }: Reading): BoardReadReport {
  return {
    script,
    lines: lines.map(({ line, state, by, says, why }) => ({ line, state, by, says, why })),
    notes: [...notes, ...curves.filter(({ deviationDegS }) => deviationDegS >= LEAST_DEG_S).map(curveNote)],
  };
}

/** A curve's largest deviation in a sentence. */
function curveNote({ what, deviationDegS }: Reading["curves"][number]): string {
  return `${what}: the board's curve and this one differ by at most ${twoDigits(deviationDegS)} deg/s.`;
}

function twoDigits(number: number): string {
  return String(Number(number.toPrecision(2)));
}

export interface BoardWriteReport {
  readonly text: string;
  readonly changes: string;
  readonly rounded: Written["rounded"];
  readonly filled: Written["filled"];
  readonly unsaid: readonly string[];
  readonly onlyBase: readonly string[];
  readonly byHand: readonly string[];
  readonly cannot: Written["cannot"];
  /** Deviations in deg/s. */
  readonly curves: readonly { readonly what: string; readonly deviation: number }[];
}

export function boardWriteReport(written: Written): BoardWriteReport {
  const { text, changes, rounded, filled, unsaid, onlyBase, byHand, cannot, curves } = written;
  return {
    text,
    changes,
    rounded,
    filled,
    unsaid,
    onlyBase,
    byHand,
    cannot,
    curves: curves.map(({ what, deviationDegS }) => ({ what, deviation: deviationDegS })),
  };
}
