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

/** The largest diameter in inches to which a band applies (null: from the row before on), then the band. */
type SizeRow = readonly [upToIn: number | null, from: number, to: number];

/** Usual bands by size of propeller. Craft with larger propellers than the last row's have no usual band. */
export function bySize(...rows: readonly SizeRow[]): UsualBand[] {
  return rows.map(([upToIn, from, to], i) => ({
    from,
    to,
    source: practice,
    when: { propellerIn: sizesOf(rows[i - 1]?.[0], upToIn) },
  }));
}

function sizesOf(fromIn: number | null | undefined, upToIn: number | null): { from?: number; to?: number } {
  return { ...(typeof fromIn === "number" && { from: fromIn }), ...(upToIn !== null && { to: upToIn }) };
}

/** With more motors than four a craft of the same propellers is so many times as heavy, and draws so many times as much. */
const MORE_MOTORS = [
  { motors: { to: 4 }, least: 1, most: 1 },
  { motors: { from: 5, to: 6 }, least: 1.4, most: 1.7 },
  { motors: { from: 7 }, least: 2.2, most: 2.6 },
];

/** Usual bands by size of propeller and number of motors; the rows are for up to four motors. None goes beyond `most`. */
export function bySizeAndMotors(most: number, ...rows: readonly SizeRow[]): UsualBand[] {
  return bySize(...rows).flatMap(({ when, from = 0, to = 0 }) =>
    MORE_MOTORS.map(({ motors, least, ...more }) => ({
      from: rounded(from * least),
      to: Math.min(most, rounded(to * more.most)),
      source: practice,
      when: { ...when, motors },
    })),
  );
}

/** To two digits: no usual band is known more exactly. */
function rounded(number: number): number {
  return Number(number.toPrecision(2));
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
