/**
 * Slots of made dialects: each with its code, and for some values the board's spelling and a script's. The spelling is
 * worked out here, from whole numbers and by its own rules, and owes nothing to the program.
 */
import type { QuantityType } from "../../shared/catalogue/specs.ts";
import type { Dice } from "../ide/compare/made-lines.ts";

export interface MadeSlot {
  /** Lines of `codes`. */
  readonly codes: readonly string[];
  /** `{a:code}` */
  readonly left: string;
  /** `{a} V` */
  readonly right: string;
  /** A value as the board spells it, and as a script does. */
  value(dice: Dice): MadeValue;
  /** The same without the code, for the slot's other appearances. */
  readonly again: string;
}

export interface MadeValue {
  readonly board: string;
  readonly ours: string;
}

/** Thousandths as a decimal. */
function decimal(thousandths: number): string {
  const digits = String(Math.abs(thousandths)).padStart(4, "0");
  const places = digits.slice(-3).replace(/0+$/, "");
  return `${thousandths < 0 ? "-" : ""}${digits.slice(0, -3)}${places === "" ? "" : `.${places}`}`;
}

/** A whole number of a board: padded; below nought in two's complement, or with a minus sign. */
export function spelled(n: number, base: number, digits: number | null): string {
  const bits =
    base !== 10 && Number.isInteger(Math.log2(base)) ? (digits ?? 32 / Math.log2(base)) * Math.log2(base) : 0;
  const size = n < 0 && bits > 0 ? n + 2 ** bits : Math.abs(n);
  const text = size
    .toString(base)
    .toUpperCase()
    .padStart(digits ?? 0, "0");
  return n < 0 && bits === 0 ? `-${text}` : text;
}

/** Larger and smaller units of a family: so many of the one in the other. */
const SMALLER: Readonly<Record<string, readonly [unit: string, count: number]>> = {
  V: ["mV", 1000],
  A: ["mA", 1000],
  s: ["ms", 1000],
  ms: ["us", 1000],
  m: ["cm", 100],
  kohm: ["ohm", 1000],
  kHz: ["Hz", 1000],
};

/** A slot for a number between the hard limits of a setting. `name` is new in the dialect. */
export function numberSlot(dice: Dice, slot: string, name: string, type: QuantityType): MadeSlot {
  const { unit } = type;
  const least = type.min?.at ?? 0;
  const most = Math.min(type.max?.at ?? least + 1000, least + 20_000);
  const behind = unit === "" ? "" : ` ${unit}`;
  const again = `{${slot}}`;
  const right = `{${slot}}${behind}`;
  const kind = dice.below(6);
  if (kind === 0) {
    const step = dice.pick([1, 10, 100, 1000]);
    const [low, high] = [Math.ceil((least * 1000) / step), Math.floor((most * 1000) / step)];
    const value = (by: Dice) => {
      const text = decimal((low + by.below(high - low + 1)) * step);
      return { board: text, ours: text + behind };
    };
    return { codes: [], left: again, right, again, value };
  }
  const [from, to] = [Math.ceil(least), Math.floor(most)];
  if (kind === 1 && to > from) {
    const value = (by: Dice) => {
      const text = String(from + by.below(to - from + 1));
      return { board: text, ours: text + behind };
    };
    return { codes: [], left: `{${slot}:${from} to ${to}}`, right, again, value };
  }
  return { ...inSteps(dice, name, unit, least, most), left: `{${slot}:${name}}`, right, again };
}

/** A number in steps, from nought or from the limit, in the setting's unit or a smaller one, in some base. */
function inSteps(
  dice: Dice,
  name: string,
  unit: string,
  least: number,
  most: number,
): Pick<MadeSlot, "codes" | "value"> {
  const [small, count] = (dice.chance(0.3) && SMALLER[unit]) || [unit, 1];
  // All amounts are thousandths of the setting's unit: whole numbers, so that nothing is lost.
  const each = dice.pick([1, 5, 10, 20, 50, 100, 500, 1000, 2000]);
  const from = dice.chance(0.5) ? 0 : Math.ceil(least) * 1000;
  const low = Math.ceil((least * 1000 - from) / each);
  const high = Math.floor((most * 1000 - from) / each);
  const isWhole = dice.chance(0.8);
  const behind = unit === "" ? "" : ` ${unit}`;
  const ours = (n: number) => decimal(from + n * each) + behind;
  const amount = (thousandths: number) => `${decimal(thousandths * count)}${small === "" ? "" : ` ${small}`}`;
  const facts = [
    from === 0 ? "" : ` from ${amount(from)}`,
    each === 1000 && count === 1 && unit === "" ? "" : ` each ${amount(each)}`,
  ];
  if (!isWhole && low >= 0) {
    // Halves and tenths of a step, as the board writes them.
    const code = `${name} number ${low} to ${high} places 1${facts.join("")}`;
    const value = (by: Dice) => {
      const n = low + by.below(high - low + 1);
      return { board: `${n}.0`, ours: ours(n) };
    };
    return { codes: [code], value };
  }
  const base = dice.pick([10, 10, 10, 16, 2, 36]);
  const digits = base === 10 ? dice.pick([null, String(Math.max(high, -low)).length]) : neededDigits(low, high, base);
  const code = `${name} number ${low} to ${high}${base === 10 ? "" : ` base ${base}`}${digits === null ? "" : ` digits ${digits}`}${facts.join("")}`;
  const value = (by: Dice) => {
    const n = low + by.below(high - low + 1);
    return { board: spelled(n, base, digits), ours: ours(n) };
  };
  return { codes: [code], value };
}

function neededDigits(low: number, high: number, base: number): number {
  const size = Math.max(high, -low) * (low < 0 ? 2 : 1);
  return Math.max(1, size).toString(base).length + 1;
}

const LETTERS = "bcdfghjkmnpqrstvwxz";

/** So many words of a board's own, none the beginning of another. */
export function ownWords(dice: Dice, count: number): string[] {
  const found = new Set<string>();
  while (found.size < count) {
    const word = dice.pick(LETTERS.split("")) + dice.pick("aeiou".split("")) + dice.pick(LETTERS.split(""));
    found.add(dice.chance(0.3) ? word.toUpperCase() : word);
  }
  return [...found];
}

/** A slot for one of some words. */
export function wordSlot(dice: Dice, slot: string, name: string, words: readonly string[]): MadeSlot {
  const theirs = dice.chance(0.2) ? words.map((_, i) => String(i)) : ownWords(dice, words.length);
  const pairs = words.map((ours, i) => `${theirs[i]} ${ours}`);
  // Words may go on in more lines of their name.
  const half = dice.chance(0.3) ? Math.ceil(pairs.length / 2) : pairs.length;
  const codes = [pairs.slice(0, half), pairs.slice(half)]
    .filter(({ length }) => length > 0)
    .map((part) => `${name} words ${part.join(", ")}`);
  const value = (by: Dice) => {
    const i = by.below(words.length);
    return { board: theirs[i]!, ours: words[i]! };
  };
  return { codes, left: `{${slot}:${name}}`, right: `{${slot}}`, again: `{${slot}}`, value };
}

/** A slot for words in an order: with nothing between, or with a mark. */
export function orderSlot(dice: Dice, slot: string, name: string, words: readonly string[]): MadeSlot {
  const theirs = dice.some("RPTYABCDEFGH".split(""), words.length);
  const value = (by: Dice) => {
    const order = by.some([...words.keys()], words.length);
    return { board: order.map((i) => theirs[i]).join(""), ours: order.map((i) => words[i]).join(" ") };
  };
  const codes = [`${name} letters ${words.map((ours, i) => `${theirs[i]} ${ours}`).join(", ")}`];
  return { codes, left: `{${slot}:${name}}`, right: `{${slot}}`, again: `{${slot}}`, value };
}

/** A slot for some of several words: a number in which each is a bit, or a list. */
export function listSlot(dice: Dice, slot: string, name: string, words: readonly string[]): MadeSlot {
  const plain = { left: `{${slot}:${name}}`, right: `{${slot}}`, again: `{${slot}}` };
  if (dice.chance(0.5)) {
    const bits = dice.some([...Array(12).keys()], words.length).sort((a, b) => a - b);
    const base = dice.pick([10, 16]);
    const codes = [
      `${name} set ${bits.map((bit, i) => `${bit} ${words[i]}`).join(", ")}${base === 16 ? " base 16 digits 3" : ""}`,
    ];
    const value = (by: Dice) => {
      const some = by.some([...words.keys()], 1 + by.below(words.length)).sort((a, b) => a - b);
      const number = some.reduce((sum, i) => sum + 2 ** bits[i]!, 0);
      return { board: spelled(number, base, base === 16 ? 3 : null), ours: some.map((i) => words[i]).join(", ") };
    };
    return { ...plain, codes, value };
  }
  const theirs = ownWords(dice, words.length);
  const by = dice.pick([",", "+", "/"]);
  const codes = [
    `${name} list ${name}-one by "${by}"`,
    `${name}-one words ${words.map((ours, i) => `${theirs[i]} ${ours}`).join(", ")}`,
  ];
  const value = (dice: Dice) => {
    const some = dice.some([...words.keys()], 1 + dice.below(words.length));
    return { board: some.map((i) => theirs[i]).join(by), ours: some.map((i) => words[i]).join(", ") };
  };
  return { ...plain, codes, value };
}

const TEXTS = ["shed", "a b", 'the "old" one', "back\\slash", "it's", "#3, {x}", "Ofen äöü", "two  blanks", "|", "x;y"];

/** A slot for text, within marks and with an escape, so that it may hold anything. */
export function textSlot(dice: Dice, slot: string, name: string, longest: number): MadeSlot {
  const mark = dice.pick(["'", '"']);
  const before = dice.pick(["\\", mark, "^"]);
  const quoted = (text: string) =>
    text.includes("'") ? `"${text.replaceAll("\\", "\\\\").replaceAll('"', '\\"')}"` : `'${text}'`;
  const codes = [
    `${name} text within ${quoted(mark)} escape ${quoted(before)}${dice.chance(0.3) ? ` longest ${longest}` : ""}`,
  ];
  const value = (by: Dice) => {
    const text = by.pick(TEXTS).slice(0, longest);
    const inside = [...text]
      .map((letter) => (letter === mark || letter === before ? before + letter : letter))
      .join("");
    return { board: mark + inside + mark, ours: `"${text.replaceAll("\\", "\\\\").replaceAll('"', '\\"')}"` };
  };
  return { codes, left: `{${slot}:${name}}`, right: `{${slot}}`, again: `{${slot}}`, value };
}
