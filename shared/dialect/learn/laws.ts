/** By which code a token follows a value through all pairs; none where it does not, or might by chance. */
import { bareText, numberIn } from "../codes/held.ts";
import type { Held } from "../dialect.ts";
import type { Law, Pairs } from "./law.ts";
import { numberLaw, plainOf } from "./number-laws.ts";

/** The law by which these tokens, one a pair, mean these values. */
export function lawOf(tokens: readonly string[], values: readonly Held[]): Law | null {
  if (new Set(tokens).size < 2) return null;
  const [first] = values;
  if (first!.kind === "list") return values.every(({ kind }) => kind === "list") ? listLaw(tokens, values) : null;
  if (first!.kind === "order") return values.every(({ kind }) => kind === "order") ? letterLaw(tokens, values) : null;
  const numbers = values.map(numberIn);
  if (numbers.every((each) => each !== null)) {
    const [{ unit }] = numbers as [NonNullable<(typeof numbers)[number]>];
    if (!numbers.every((each) => each.unit === unit)) return null;
    const exacts = numbers.map(({ number }) => number);
    return plainOf(tokens, exacts, unit) ?? numberLaw(tokens, exacts, unit);
  }
  if (values.every(({ kind }) => kind === "text")) return textLaw(tokens, values.map(bareText));
  return values.every(({ kind }) => kind === "word") ? wordLaw(tokens, values.map(bareText)) : null;
}

const ESCAPES = ["\\", "^", "`", "~"];

function textLaw(tokens: readonly string[], texts: readonly string[]): Law | null {
  if (tokens.every((token, i) => token === texts[i])) return { kind: "text", within: "", escape: "" };
  for (const within of ['"', "'"])
    for (const mark of ["", within, ...ESCAPES])
      if (tokens.every((token, i) => token === within + escaped(texts[i]!, within, mark) + within))
        // Marks inside show how they are escaped; without one it is not known.
        return mark === "" || texts.some((text) => text.includes(within) || text.includes(mark))
          ? { kind: "text", within, escape: mark }
          : null;
  return null;
}

function escaped(text: string, within: string, mark: string): string {
  if (mark === "") return text.includes(within) ? `\u0000${text}` : text;
  return [...text].map((letter) => (letter === within || letter === mark ? mark + letter : letter)).join("");
}

/** Words that mean the same throughout, both ways; null where one means two things. */
export function bijection(pairs: Iterable<readonly [theirs: string, ours: string]>): Pairs | null {
  const [there, back] = [new Map<string, string>(), new Map<string, string>()];
  for (const [token, word] of pairs) {
    if ((there.get(token) ?? word) !== word || (back.get(word) ?? token) !== token) return null;
    there.set(token, word);
    back.set(word, token);
  }
  return [...there];
}

/** What can stand as the board's word in a code. */
function canBeWord(token: string): boolean {
  return /^[\p{L}\p{N}_.+-]+$/u.test(token);
}

/** Each word of the board for one of ours, both ways. */
export function wordLaw(tokens: readonly string[], words: readonly string[]): Law | null {
  const pairs = bijection(tokens.map((token, i) => [token, words[i]!] as const));
  if (!pairs) return null;
  if (pairs.every(([token, word]) => token === word)) return { kind: "plain", unit: "" };
  return pairs.every(([token]) => canBeWord(token)) ? { kind: "words", pairs } : null;
}

function wordsOf(held: Held): readonly string[] {
  return held.kind === "list" || held.kind === "order" ? held.items.map(bareText) : [bareText(held)];
}

/** An order of words with nothing between their letters. */
function letterLaw(tokens: readonly string[], values: readonly Held[]): Law | null {
  const all: (readonly [string, string])[] = [];
  for (const [i, token] of tokens.entries()) {
    const [letters, words] = [[...token], wordsOf(values[i]!)];
    if (letters.length !== words.length || !letters.every(canBeWord)) return listLaw(tokens, values);
    for (const [k, letter] of letters.entries()) all.push([letter, words[k]!]);
  }
  const pairs = bijection(all);
  return pairs ? { kind: "letters", pairs } : null;
}

function listLaw(tokens: readonly string[], values: readonly Held[]): Law | null {
  for (const by of [",", "+", "/", "|", ";", ":", ".", "-", " "]) {
    const split = tokens.map((token) => token.split(by));
    const words = values.map(wordsOf);
    if (split.some((items, i) => items.length !== words[i]!.length) || split.every(({ length }) => length < 2))
      continue;
    const pairs = bijection(split.flatMap((items, i) => items.map((item, k) => [item, words[i]![k]!] as const)));
    if (pairs?.every(([token]) => canBeWord(token)))
      return { kind: "list", by, pairs: pairs.every(([theirs, ours]) => theirs === ours) ? [] : pairs };
  }
  return setLaw(tokens, values.map(wordsOf));
}

const MOST_BITS = 30;

/** A number in which each word is a bit, each told from all others by the texts. */
function setLaw(tokens: readonly string[], words: readonly (readonly string[])[]): Law | null {
  for (const { base, spelling } of spellingsOfSet(tokens)) {
    const numbers = tokens.map((token) => Number.parseInt(token, base));
    if (numbers.some((n, i) => !(n < 2 ** MOST_BITS) || bitsOf(n).length !== words[i]!.length)) continue;
    const bits = [...new Set(words.flat())].map((word) => {
      const fits = [...Array(MOST_BITS).keys()].filter((bit) =>
        numbers.every((n, i) => ((n >> bit) & 1) === (words[i]!.includes(word) ? 1 : 0)),
      );
      return [fits.length === 1 ? fits[0]! : -1, word] as const;
    });
    if (bits.every(([bit]) => bit >= 0)) return { kind: "set", bits: [...bits].sort((a, b) => a[0] - b[0]), spelling };
  }
  return null;
}

function bitsOf(n: number): number[] {
  return [...Array(MOST_BITS).keys()].filter((bit) => (n >> bit) & 1);
}

function spellingsOfSet(tokens: readonly string[]): { base: number; spelling: string }[] {
  const digits = tokens[0]!.length;
  const isPadded = tokens.every(({ length }) => length === digits);
  if (tokens.every((token) => /^(0|[1-9]\d*)$/.test(token))) return [{ base: 10, spelling: "" }];
  if (!tokens.every((token) => /^[0-9a-f]+$/i.test(token))) return [];
  return isPadded ? [{ base: 16, spelling: ` base 16 digits ${digits}` }] : [];
}
