/** Texts spoiled in every way that a hand, a disk or a bad program spoils them. */
import type { Random } from "../random.ts";

/** Characters and words that readers have tripped over: signs, blanks that look like others, marks, huge numbers, names of objects. */
const HOSTILE = [
  ..."\t \"'\\#{}()=:,;|-+./%*^~<>[]$?!&@`0aZé",
  "\u0000",
  "\u0007",
  "\u001b[31m",
  "\u00a0",
  "\u00b5",
  "\u0085",
  "\u2028",
  "\u2029",
  "\u200b",
  "\u202e",
  "\ufeff",
  "\ufffd",
  "\ud800",
  "\udc00",
  "\u{1F3FA}",
  "e\u0301",
  "\n",
  "\r",
  "\r\n",
  "\n\n\n",
  "\\n",
  '\\"',
  "9".repeat(40),
  "-",
  "1e9",
  "0.".concat("0".repeat(30), "1"),
  "(".repeat(70),
  "not ".repeat(70),
  "a".repeat(300),
  "constructor",
  "__proto__",
  "toString",
  "NaN",
  "Infinity",
  "\n<<<<<<< ours\n",
  "\n=======\n",
  "\n||||||| base\n",
  "\n>>>>>>> theirs\n",
  " edition 2",
  "# allow syntax: no",
  "\npack\n",
  '\nverbatim "kiln"\n  |  kept \n',
  "\n  drop all\n",
];

type Spoil = (random: Random, text: string, other: string) => string;

const at = (random: Random, text: string) => random.between(0, text.length);
/** Most of what is cut out is short: long cuts leave little to read. */
const short = (random: Random) => (random.onceIn(4) ? random.between(1, 120) : random.between(1, 8));

const piece = (random: Random, text: string) => {
  const from = at(random, text);
  return text.slice(from, from + short(random));
};

const put = (text: string, where: number, what: string) => text.slice(0, where) + what + text.slice(where);

/** Splits into words and what is between them. */
const tokens = (text: string) => text.match(/[A-Za-z0-9_-]+|\s+|[^A-Za-z0-9_\s-]/g) ?? [];

const swapped = <T>(random: Random, list: readonly T[]): T[] => {
  if (list.length < 2) return [...list];
  const [a, b] = [random.below(list.length), random.below(list.length)];
  return list.with(a, list[b]!).with(b, list[a]!);
};

const SPOILS: readonly Spoil[] = [
  // Drop.
  (random, text) => {
    const from = at(random, text);
    return text.slice(0, from) + text.slice(from + short(random));
  },
  // Double.
  (random, text) => put(text, at(random, text), piece(random, text)),
  // Cut.
  (random, text) => (random.onceIn(2) ? text.slice(0, at(random, text)) : text.slice(at(random, text))),
  // Splice.
  (random, text, other) => put(text, at(random, text), piece(random, other)),
  (random, text, other) => text.slice(0, at(random, text)) + other.slice(at(random, other)),
  // A hostile character, in between or in place of another.
  (random, text) => put(text, at(random, text), random.oneOf(HOSTILE)),
  (random, text) => {
    const where = at(random, text);
    return text.slice(0, where) + random.oneOf(HOSTILE) + text.slice(where + 1);
  },
  // Words swapped, dropped or doubled.
  (random, text) => swapped(random, tokens(text)).join(""),
  (random, text) => {
    const words = tokens(text);
    return words.length === 0 ? text : words.toSpliced(random.below(words.length), 1).join("");
  },
  (random, text) => {
    const words = tokens(text);
    if (words.length === 0) return text;
    const i = random.below(words.length);
    return words.toSpliced(i, 0, words[i]!, " ").join("");
  },
  // Lines swapped, doubled, outdented.
  (random, text) => swapped(random, text.split("\n")).join("\n"),
  (random, text) => {
    const lines = text.split("\n");
    return lines.toSpliced(random.below(lines.length), 0, random.oneOf(lines)).join("\n");
  },
  (random, text) => {
    const lines = text.split("\n");
    const i = random.below(lines.length);
    return lines.with(i, random.oneOf(["", " ", "\t", "   "]) + lines[i]!.trimStart()).join("\n");
  },
  // Numbers made larger.
  (random, text) => {
    const where = text.slice(at(random, text)).search(/\d/);
    return where < 0 ? text : put(text, where, random.oneOf(["9".repeat(20), "0", "1", "0.", "-", "99"]));
  },
];

/** The text as it is, or spoiled in up to four ways; `other` is what is spliced into it. */
export function spoiled(random: Random, text: string, other: string): string {
  const ways = random.oneOf([0, 1, 1, 1, 2, 2, 3, 4]);
  let now = text;
  for (let i = 0; i < ways; i++) now = random.oneOf(SPOILS)(random, now, other);
  return now;
}
