/** What is gathered for the report while a text is written. */
import type { Written } from "./written.ts";

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer E)[] ? E[] : T[K] };

export type Report = Mutable<Omit<Written, "text" | "changes">>;

export function emptyReport(): Report {
  return { rounded: [], filled: [], unsaid: [], onlyBase: [], byHand: [], cannot: [], curves: [], notes: [] };
}

/** Adds why something is not written; once for each name. */
export function cannotSay(
  report: Report,
  what: string,
  why: string,
  positions: Readonly<Record<string, string | number>> | null = null,
): void {
  if (!report.cannot.some((each) => each.what === what)) report.cannot.push({ what, why, positions });
}
