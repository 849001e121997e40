/** What a board may write in a slot, and what it then means: few of many, but the ends of each range and every word. */
import { decode, encode, textOfHeld } from "../codes/codes.ts";
import type { BitsCode, Code, LettersCode, NumberCode, SetCode, Slot, WordsCode } from "../dialect.ts";
import { dividedBy, type Exact, exact, floorExact, plus, times } from "../exact.ts";

/** As many of each kind; a word beyond them is spelled like those before it. */
const MOST = 64;

/** Spellings of a slot; null without a code, where a board writes whatever a script would. */
export function spellingsOf({ code, whole }: Pick<Slot, "code" | "whole">): readonly string[] | null {
  if (whole) return unique([whole.from, Math.floor((whole.from + whole.to) / 2), whole.to].map(String));
  return code && unique(spellingsOfCode(code));
}

function spellingsOfCode(code: Code): readonly string[] {
  switch (code.kind) {
    case "number":
      return spellingsOfNumber(code);
    case "words":
      return code.words.slice(0, MOST).map(({ theirs }) => theirs);
    case "letters": {
      const letters = code.words.slice(0, MOST).map(({ theirs }) => theirs);
      return [letters.join(""), ...letters];
    }
    case "list": {
      const items = spellingsOfCode(code.of);
      return ["", ...items, items.slice(0, 3).join(code.by)];
    }
    case "bits":
      return spellingsOfBits(code);
    case "set":
      return ["0", ...code.items.map(({ bit }) => (1n << BigInt(bit)).toString(code.base))].map((text) =>
        text.padStart(code.digits ?? 0, "0"),
      );
    case "text":
      return code.within === "" ? ["", "x", "x y"] : ["", "x", "x y"].map((text) => code.within + text + code.within);
  }
}

/** The ends, the middle, and the number that means unset; a few numbers where the code has no bounds. */
function spellingsOfNumber(code: NumberCode): readonly string[] {
  const { least, most, from, each, into } = code;
  const two = exact(2n);
  const numbers: readonly Exact[] =
    least && most
      ? [least, exact(floorExact(dividedBy(plus(least, most), two))), most]
      : [0n, 1n, 2n, 10n, 100n].map((n) => exact(n));
  const spelled: string[] = [];
  const add = (held: Parameters<typeof encode>[1]) => {
    const encoded = encode(code, held);
    if (encoded.kind === "spelled") spelled.push(encoded.text);
  };
  for (const number of numbers) {
    if (into && number.over === 0n) continue;
    const value = into ? dividedBy(into, number) : plus(from, times(number, each));
    add({ kind: "number", number: value, unit: code.channels ? "ch" : code.unit });
  }
  if (code.unset) add({ kind: "unset" });
  return spelled;
}

/** Each part at each of a few values, while the others stay at the first that means something. */
function spellingsOfBits(code: BitsCode): readonly string[] {
  const fixed = code.fixed.reduce((all, { bit, is }) => all | (BigInt(is) << BigInt(bit)), 0n);
  const parts = code.parts.map((part) => {
    const size = 2 ** Math.min(6, part.to - part.from + 1);
    const values: bigint[] = [];
    for (let n = 0; n < size && values.length < 8; n++)
      if (!part.code || decode(part.code, String(n)).kind !== "bad") values.push(BigInt(n) << BigInt(part.from));
    return values;
  });
  const usual = parts.reduce((all, [first = 0n]) => all | first, fixed);
  const numbers = parts.flatMap((values) => values.map((value) => (usual & ~(values[0] ?? 0n)) | value));
  return [usual, ...numbers].map((number) => number.toString(code.base).padStart(code.digits ?? 0, "0"));
}

function unique(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)];
}

/** A word, letter or bit of a code, with what it stands for. */
export interface OursOf {
  readonly code: WordsCode | LettersCode | SetCode;
  readonly ours: string;
}

/** What a slot may mean, as a script writes it. */
export interface Sample {
  readonly text: string;
  /** The words of codes that it is made of. */
  readonly words: readonly OursOf[];
}

/** A part of a slot, or the slot itself. */
export interface Holder {
  readonly code: Code | null;
  readonly whole: Slot["whole"];
}

/** What it may mean; null where that is not known, as without a code, and for texts. */
export function samplesOf({ code, whole }: Holder): readonly Sample[] | null {
  switch (code?.kind) {
    case undefined:
      return whole && spellingsOf({ code: null, whole })!.map((text) => ({ text, words: [] }));
    case "number":
      return spellingsOfNumber(code).flatMap((raw) => {
        const held = decode(code, raw);
        return held.kind === "bad" || held.kind === "unset" ? [] : [{ text: textOfHeld(held), words: [] }];
      });
    case "words":
    case "letters":
      return code.words.flatMap(({ ours }) => (ours === null ? [] : [{ text: ours, words: [{ code, ours }] }]));
    case "set":
      return code.items.map(({ ours }) => ({ text: ours, words: [{ code, ours }] }));
    case "list":
      return samplesOf({ code: code.of, whole: null });
    case "bits":
    case "text":
      return null;
  }
}

/** A part of bits as something that holds a value of its own. */
export function partOf(code: BitsCode, name: string): Holder | null {
  const part = code.parts.find((each) => each.name === name);
  if (!part) return null;
  const width = part.to - part.from + 1;
  return part.code
    ? { code: part.code, whole: null }
    : { code: null, whole: { from: 0, to: Math.min(2 ** width - 1, Number.MAX_SAFE_INTEGER) } };
}
