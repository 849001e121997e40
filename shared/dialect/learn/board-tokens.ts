/** The pieces of a board line that may hold a value: numbers, words, and text between marks. */
import type { Cols } from "../../syntax/span.ts";

export interface BoardToken extends Cols {
  readonly kind: "number" | "digits" | "word" | "quoted";
  /** As it stands in the line, without the marks of a quoted text. */
  readonly text: string;
  /** The mark around a quoted text; "" for all others. */
  readonly mark: string;
}

const QUOTED = /(["'`])((?:(?!\1).)*)\1/g;
/** A sign belongs to a number where nothing stands before it that it could join to the number. */
const NUMBER = /(?<![\w.)\]])[-+]?\d+(?:\.\d+)?|\d+(?:\.\d+)?/g;
const WORD = /[\p{L}\p{N}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?/gu;
/** Digits of base 16 that are no number of base 10: with a letter among them, or led by noughts. */
const DIGITS = /(?<![\p{L}\p{N}_])(?:(?=[0-9a-f]*\d)(?=[0-9a-f]*[a-f])[0-9a-f]{1,16}|0[0-9]{1,15})(?![\p{L}\p{N}_])/giu;

/** Longer lines are kept whole, and nobody names a part of one. */
const MOST_CHARACTERS = 4096;

/** Every piece, in order of place; pieces overlap where one can be read in more than one way. Digits within a number of base 16 are no piece. */
export function boardTokens(line: string): readonly BoardToken[] {
  if (line.length > MOST_CHARACTERS) return [];
  const found: BoardToken[] = [];
  const add = (kind: BoardToken["kind"], at: number, text: string, mark = "") => {
    const token = { kind, text, mark, start: at, end: at + text.length + 2 * mark.length };
    if (!found.some((other) => other.kind === kind && other.start === token.start && other.end === token.end))
      found.push(token);
  };
  for (const match of line.matchAll(QUOTED)) add("quoted", match.index, match[2]!, match[1]!);
  for (const match of line.matchAll(NUMBER)) add("number", match.index, match[0]);
  for (const match of line.matchAll(DIGITS)) add("digits", match.index, match[0]);
  for (const match of line.matchAll(WORD)) if (/\p{L}/u.test(match[0])) add("word", match.index, match[0]);
  const inside = ({ kind, start, end }: BoardToken) =>
    kind === "number" &&
    found.some(
      (other) => other.kind === "digits" && other.start <= start && other.end >= end && /[a-f]/i.test(other.text),
    );
  return found.filter((token) => !inside(token)).sort((a, b) => a.start - b.start || b.end - a.end);
}
