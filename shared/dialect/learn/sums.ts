/** A value that stands in a line in two parts: a high one in large steps, and a low one that counts on. */
import { numberIn, textOfHeld } from "../codes/held.ts";
import type { Held } from "../dialect.ts";
import { compareExact, type Exact, exact, minus, times } from "../exact.ts";
import type { AlignedLine } from "./align.ts";
import type { AtomEntry } from "./atoms.ts";
import type { Fact } from "./fact-text.ts";
import type { Law } from "./law.ts";
import { lawFor, spellingsOf } from "./number-laws.ts";

interface Token {
  readonly line: AlignedLine;
  readonly at: number;
  readonly texts: readonly string[];
}

interface Atom {
  readonly entry: string;
  readonly index: number;
  readonly rows: readonly number[];
  readonly entries: readonly AtomEntry[];
}

/** So many of the low part make one of the high part. */
const HIGH = [10, 16, 60, 64, 100, 128, 256, 1000, 1024, 4096, 65_536].map((each) => exact(BigInt(each)));
const ONE = exact(1n);

/** The entries of one number that three texts or more show to be the sum of two tokens, if no other two would do. */
export function sumsOf(tokens: readonly Token[], atoms: readonly Atom[]): Fact[] {
  return atoms.flatMap((atom): Fact[] => {
    const [{ form, want }] = atom.entries as [AtomEntry];
    const values = atom.entries.map(({ values }) => values[atom.index]!);
    const numbers = values.map(numberIn);
    if (form.kind !== "whole" || numbers.includes(null) || countOf(values) < 3) return [];
    const { unit } = numbers[0]!;
    const exacts = numbers.map((each) => each!.number);
    const found: { high: Token; low: Token; laws: readonly [Law, Law] }[] = [];
    for (const high of tokens)
      for (const low of tokens) {
        if (high === low || !areNear(high, low) || String(high.line.rows) !== String(atom.rows)) continue;
        const laws = partsOf(high.texts, low.texts, exacts, unit);
        if (laws) found.push({ high, low, laws });
      }
    const [only, ...others] = found;
    if (!only || others.length > 0) return [];
    const { high, low, laws } = only;
    return [
      {
        whats: [atom.entry],
        want,
        form,
        key: null,
        parts: [
          { law: laws[0], line: high.line, at: high.at },
          { law: laws[1], line: low.line, at: low.at },
        ],
        lines: high.line === low.line ? [high.line] : [high.line, low.line],
      },
    ];
  });
}

function countOf(values: readonly Held[]): number {
  return new Set(values.map(textOfHeld)).size;
}

/** In one line, or in two that begin alike. */
function areNear(a: Token, b: Token): boolean {
  if (a.line === b.line) return true;
  return a.line.pieces[0]![0]!.text === b.line.pieces[0]![0]!.text && String(a.line.rows) === String(b.line.rows);
}

function partsOf(
  high: readonly string[],
  low: readonly string[],
  values: readonly Exact[],
  unit: string,
): readonly [Law, Law] | null {
  for (const a of spellingsOf(high))
    for (const b of spellingsOf(low))
      for (const each of HIGH) {
        const isSum = values.every((value, i) => {
          const rest = minus(value, times(a.numbers[i]!, each));
          return compareExact(rest, b.numbers[i]!) === 0 && rest.over >= 0n && compareExact(rest, each) < 0;
        });
        if (isSum)
          return [
            lawFor({ from: null, each, into: null }, unit, a.spelling),
            lawFor({ from: null, each: ONE, into: null }, unit, b.spelling),
          ];
      }
  return null;
}
