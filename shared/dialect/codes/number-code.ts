/** Numbers as boards write them: in steps, in a base, divided, as channels. */
import type { Decoded, Digits, Encoded, Held, NumberCode } from "../dialect.ts";
import {
  compareExact,
  decimalOf,
  dividedBy,
  type Exact,
  exact,
  exactOf,
  floorExact,
  minus,
  plus,
  times,
} from "../exact.ts";
import { CHANNEL, inUnit, numberIn, textOfHeld } from "./held.ts";

/** Bits of a number whose digits are not said. */
const USUAL_BITS = 32;

/**
 * The bits that a number has in two's complement (as in any text on computer arithmetic): its digits times the bits
 * of one, 32 where the digits are not said. Null in a base that is no power of two, where a minus sign stands.
 */
export function bitsOf({ base, digits }: Digits): number | null {
  const each = Math.log2(base);
  if (base === 10 || !Number.isInteger(each)) return null;
  return digits === null ? USUAL_BITS : digits * each;
}

/** A whole number in a base, without sign; null for other text, and for more digits than there are. */
export function parseDigits(raw: string, { base, digits }: Digits): bigint | null {
  if (raw === "" || raw.length > (digits ?? 64)) return null;
  let number = 0n;
  for (const letter of raw) {
    const digit = Number.parseInt(letter, base);
    if (Number.isNaN(digit) || !/[0-9a-z]/i.test(letter)) return null;
    number = number * BigInt(base) + BigInt(digit);
  }
  return number;
}

/** A whole number of nought or more in a base, padded to its digits; `like`: capitals unless that has small letters. */
export function spellDigits(number: bigint, { base, digits }: Digits, like: string | null): string {
  const text = number.toString(base).padStart(digits ?? 0, "0");
  return like !== null && /[a-z]/.test(like) ? text : text.toUpperCase();
}

/** What the board's n is; null where the text is no number of this code. */
function parseNumber(raw: string, code: NumberCode): Exact | null {
  if (code.base === 10) {
    const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(raw);
    if (!match || (match[3] ?? "").length > code.places) return null;
    if (code.digits !== null && code.places === 0 && match[2]!.length > code.digits) return null;
    return exactOf(raw);
  }
  const bits = bitsOf(code);
  const sign = bits === null && raw.startsWith("-") ? -1n : 1n;
  const whole = parseDigits(sign < 0n ? raw.slice(1) : raw, code);
  if (whole === null) return null;
  const isNegative = bits !== null && mayBeNegative(code) && whole >= 1n << BigInt(bits - 1);
  return exact(isNegative ? whole - (1n << BigInt(bits)) : sign * whole);
}

function mayBeNegative({ least }: NumberCode): boolean {
  return least !== null && least.over < 0n;
}

function spellNumber(number: Exact, code: NumberCode, like: string | null): string | null {
  if (code.base === 10) {
    const text = decimalOf(number);
    const isBelow = text.startsWith("-");
    const [whole = "", places = ""] = (isBelow ? text.slice(1) : text).split(".");
    const padded = whole.padStart(code.digits ?? 0, "0");
    return `${isBelow ? "-" : ""}${padded}${code.places > 0 ? `.${places.padEnd(code.places, "0")}` : ""}`;
  }
  const whole = floorExact(number);
  const bits = bitsOf(code);
  if (whole >= 0n) return spellDigits(whole, code, like);
  if (bits === null) return `-${spellDigits(-whole, code, like)}`;
  return spellDigits(whole + (1n << BigInt(bits)), code, like);
}

export function decodeNumber(code: NumberCode, raw: string): Decoded {
  const number = parseNumber(raw, code);
  if (!number)
    return {
      kind: "bad",
      why: `“${raw}” is no ${code.base === 10 ? "" : `base-${code.base} `}number of “${code.name}”`,
    };
  if (code.unset && compareExact(number, code.unset) === 0) return { kind: "unset" };
  const beyond = boundsFault(number, code);
  if (beyond !== null) return { kind: "bad", why: beyond };
  const value = worthOf(number, code);
  return value
    ? { kind: "number", number: value, unit: unitOf(code) }
    : { kind: "bad", why: "nothing can be divided by 0" };
}

function unitOf({ channels, unit }: NumberCode): string {
  return channels ? CHANNEL : unit;
}

function boundsFault(number: Exact, { least, most }: NumberCode): string | null {
  const isBeyond = (least && compareExact(number, least) < 0) || (most && compareExact(number, most) > 0);
  return isBeyond ? `${decimalOf(number)} is beyond ${decimalOf(least!)} to ${decimalOf(most!)}` : null;
}

/** from + n × each; or into / n. Null where that is a division by nought. */
function worthOf(number: Exact, { from, each, into }: NumberCode): Exact | null {
  if (!into) return plus(from, times(number, each));
  return number.over === 0n ? null : dividedBy(into, number);
}

/** The nearest step, of two the lower; what is beyond the bounds is not written. */
export function encodeNumber(code: NumberCode, held: Held, like: string | null): Encoded {
  if (held.kind === "unset")
    return code.unset
      ? { kind: "spelled", text: spellNumber(code.unset, code, like)!, means: null }
      : { kind: "cannot", why: `“${code.name}” has no number that means unset` };
  const given = numberIn(held);
  const value = given && inUnit(given, unitOf(code));
  if (!given || !value) return { kind: "cannot", why: `${textOfHeld(held)} is no ${unitOf(code) || "number"} value` };
  const { into, from, each } = code;
  if (into && value.over === 0n) return { kind: "cannot", why: "no number divides to 0" };
  const ideal = into ? dividedBy(into, value) : dividedBy(minus(value, from), each);
  const beyond = boundsFault(ideal, code);
  if (beyond !== null)
    return { kind: "cannot", why: `${textOfHeld(held)} is beyond what the board takes: ${rangeOf(code)}` };
  const scale = exact(10n ** BigInt(code.places));
  const low = floorExact(times(ideal, scale));
  let best: { number: Exact; value: Exact; off: Exact } | null = null;
  for (const whole of [low, low + 1n]) {
    const number = dividedBy(exact(whole), scale);
    const means = boundsFault(number, code) === null ? worthOf(number, code) : null;
    if (!means || (code.unset && compareExact(number, code.unset) === 0)) continue;
    const off = away(means, value);
    const order = best ? compareExact(off, best.off) : -1;
    if (!best || order < 0 || (order === 0 && compareExact(means, best.value) < 0))
      best = { number, value: means, off };
  }
  if (!best) return { kind: "cannot", why: `${textOfHeld(held)} is the number by which the board means unset` };
  const text = spellNumber(best.number, code, like)!;
  if (code.digits !== null && text.replace(/^-|\..*$/g, "").length > code.digits)
    return { kind: "cannot", why: `${textOfHeld(held)} needs more than ${code.digits} digits` };
  return {
    kind: "spelled",
    text,
    means: best.off.over === 0n ? null : { kind: "number", number: best.value, unit: unitOf(code) },
  };
}

function away(a: Exact, b: Exact): Exact {
  const difference = minus(a, b);
  return difference.over < 0n ? { ...difference, over: -difference.over } : difference;
}

/** The lowest and the highest value of a code, as a script writes them. */
export function rangeOf(code: NumberCode): string {
  const ends = endsOf(code);
  return ends ? `${textOf(ends.least, code)} to ${textOf(ends.most, code)}` : "any number";
}

function textOf(number: Exact, code: NumberCode): string {
  return textOfHeld({ kind: "number", number, unit: unitOf(code) });
}

/** The lowest and the highest value; null where the code has no bounds. */
export function endsOf(code: NumberCode): { readonly least: Exact; readonly most: Exact } | null {
  const ends = [code.least, code.most].map((each) => each && worthOf(each, code));
  const [a, b] = ends;
  if (!a || !b) return null;
  return compareExact(a, b) <= 0 ? { least: a, most: b } : { least: b, most: a };
}

/** The least difference between two values that the code can spell, above nought; null for `into`, whose steps differ. */
export function stepOf(code: NumberCode): Exact | null {
  if (code.into) return null;
  const step = dividedBy(code.each, exact(10n ** BigInt(code.places)));
  return step.over < 0n ? { ...step, over: -step.over } : step;
}
