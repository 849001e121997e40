/** Constructors of value types, so that a section of the catalogue reads as a table of facts. */
import { practice } from "./sources.ts";
import type { IntegerType, Limit, QuantityType, SimpleType, UsualBand } from "./specs.ts";

/** Both hard limits with the one source that they share. */
function limits(min: number, max: number, source: string): { min: Limit; max: Limit } {
  return { min: { at: min, source }, max: { at: max, source } };
}

/** A quantity in `unit` ("" for a bare number) between two hard limits, both included. */
export function quantity(unit: string, min: number, max: number, source: string, usual?: UsualBand[]): QuantityType {
  return { is: "quantity", unit, ...limits(min, max, source), ...(usual && { usual }) };
}

/** A whole number between two hard limits, both included. */
export function integer(min: number, max: number, source: string, usual?: UsualBand[]): IntegerType {
  return { is: "integer", ...limits(min, max, source), ...(usual && { usual }) };
}

/** One usual band for craft of every size. */
export function usually(from: number, to: number, source = practice): UsualBand[] {
  return [{ from, to, source }];
}

/**
 * Usual bands by size of propeller: each row is the largest diameter in inches to which the band
 * applies, then the band. Craft with larger propellers than the last row's have no usual band.
 */
export function bySize(...rows: [upToIn: number, from: number, to: number][]): UsualBand[] {
  return rows.map(([upToIn, from, to], i) => ({
    from,
    to,
    source: practice,
    when: { propellerIn: { from: rows[i - 1]?.[0] ?? 0, to: upToIn } },
  }));
}

/** One word of several, each with the sentence that says what it means. */
export function choice(words: Record<string, string>): Extract<SimpleType, { is: "choice" }> {
  return { is: "choice", choices: Object.entries(words).map(([word, what]) => ({ word, what })) };
}

export const yesNo: SimpleType = { is: "yes-no" };
export const date: SimpleType = { is: "date" };

/** A string of at most `longest` characters. */
export function quotedText(longest: number): SimpleType {
  return { is: "text", longest };
}
