/** How a board might spell what a slot holds: spellings that a code or a slot takes, for examples. */
import { decode, encode, textOfHeld } from "../../dialect/codes/codes.ts";
import type { BitsCode, Code, Held, NumberCode, Slot } from "../../dialect/dialect.ts";
import { type Exact, exact, floorExact, minus, plus, times } from "../../dialect/exact.ts";

/** A board's spelling beside ours. */
export interface Spelling {
  readonly theirs: string;
  readonly ours: string;
}

/** As many pairs as one reads at a glance. */
const MOST_PAIRS = 6;

/** What a code spells, with what each means: the first words, numbers low, in the middle and high. */
export function spellingsOf(code: Code): Spelling[] {
  const seen = new Set<string>();
  const [middle, , , , low, high, ...more] = code.kind === "number" ? rawsOf(code) : [];
  // Of a number its lower end, its middle and its upper end.
  const raws = code.kind === "number" ? [low, middle, high, ...more].filter((raw) => raw !== undefined) : rawsOf(code);
  return raws.flatMap((theirs): Spelling[] => {
    const held = decode(code, theirs);
    if (held.kind === "bad" || seen.has(theirs) || seen.size >= MOST_PAIRS) return [];
    seen.add(theirs);
    return [{ theirs, ours: textOfHeld(held) }];
  });
}

/** Spellings of a slot, the likeliest first; `high` begins with great numbers. */
export function rawsOfSlot({ code, whole, default: byDefault }: Slot, high: boolean): string[] {
  const own = whole ? wholes(whole.from, whole.to) : code ? rawsOf(code) : PLAIN;
  const known = code?.kind === "words" ? own.filter((raw) => decode(code, raw).kind !== "unset") : own;
  const sorted = high && (whole || code?.kind === "number") ? highFirst(known) : known;
  return [...new Set([...sorted, ...own, ...(byDefault === null ? [] : [byDefault])])];
}

/** Without a code a value stands as in a script: numbers, words that many settings have, text. */
const PLAIN = ["3", "20", "150", "1500", "0.5", "1.5", "yes", "kiln"];

/** `[middle, low, high, …]` becomes `[high, middle, low, …]`. */
function highFirst([middle, low, high, ...more]: readonly string[]): string[] {
  return [high, middle, low, ...more].filter((raw) => raw !== undefined);
}

/** The middle, a fifth and four fifths of the way, both ends. */
function wholes(from: number, to: number): string[] {
  const at = (share: number) => String(Math.round(from + (to - from) * share));
  return [at(0.5), at(0.2), at(0.8), at(0.65), String(from), String(to)];
}

function rawsOf(code: Code): string[] {
  switch (code.kind) {
    case "number":
      return numbersOf(code);
    case "words":
      return code.words.map(({ theirs }) => theirs);
    case "letters":
      return [
        code.words
          .filter(({ ours }) => ours !== null)
          .map(({ theirs }) => theirs)
          .join(""),
      ];
    case "list": {
      const [first, second] = rawsOf(code.of).filter((raw) => decode(code.of, raw).kind !== "unset");
      return [first, second && `${first}${code.by}${second}`].filter((raw) => raw !== undefined);
    }
    case "bits":
      return bitsOf(code);
    case "set": {
      const items = code.items.map(({ ours }): Held => ({ kind: "word", text: ours }));
      return [items.slice(0, 1), items.slice(0, 2), items].flatMap((each) =>
        spelled(code, { kind: "list", items: each }),
      );
    }
    case "text":
      return ["kiln", "blue edge"].flatMap((text) => spelled(code, { kind: "text", text }));
  }
}

function numbersOf(code: NumberCode): string[] {
  const { least, most, unset } = code;
  const [low, high] = [least ?? exact(1n), most ?? exact(200n)];
  const whole = (share: Exact) => {
    const number = exact(floorExact(plus(low, times(minus(high, low), share))));
    return { kind: "number", number, unit: "" } as const;
  };
  const plain: NumberCode = { ...code, from: exact(0n), each: exact(1n), into: null, unit: "", channels: false };
  const numbers = [exact(1n, 2n), exact(1n, 5n), exact(4n, 5n), exact(13n, 20n)].map(whole);
  const ends = [low, high].map((number) => ({ kind: "number", number, unit: "" }) as const);
  return [...numbers, ...ends, ...(unset ? [{ kind: "unset" } as const] : [])].flatMap((held) => spelled(plain, held));
}

function bitsOf(code: BitsCode): string[] {
  const parts = new Map<string, Held>();
  for (const part of code.parts) {
    const raw = part.code ? rawsOf(part.code)[0] : undefined;
    const held = part.code && raw !== undefined ? decode(part.code, raw) : null;
    const most = 2 ** (part.to - part.from + 1) - 1;
    const number: Held = { kind: "number", number: exact(BigInt(Math.min(most, 2 + parts.size))), unit: "" };
    parts.set(part.name, held && held.kind !== "bad" ? held : number);
  }
  return [...spelled(code, { kind: "parts", parts }), ...spelled(code, { kind: "unset" })];
}

function spelled(code: Code, held: Held): string[] {
  const text = encode(code, held);
  return text.kind === "spelled" ? [text.text] : [];
}
