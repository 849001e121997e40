/** Several things in one number: named bits, and sets in which each bit is an item. */
import type { BitsCode, Code, Decoded, Encoded, Held, SetCode } from "../dialect.ts";
import { exact, floorExact } from "../exact.ts";
import { numberIn, textOfHeld } from "./held.ts";
import { parseDigits, spellDigits } from "./number-code.ts";

export type Decode = (code: Code | null, raw: string) => Decoded;
export type Encode = (code: Code | null, held: Held) => Encoded;

function mask(from: number, to: number): bigint {
  return ((1n << BigInt(to - from + 1)) - 1n) << BigInt(from);
}

/** Every bit that the code names or fixes. */
function namedBits(code: BitsCode | SetCode): bigint {
  if (code.kind === "set") return code.items.reduce((all, { bit }) => all | mask(bit, bit), 0n);
  const fixed = code.fixed.reduce((all, { bit }) => all | mask(bit, bit), 0n);
  return code.parts.reduce((all, { from, to }) => all | mask(from, to), fixed);
}

function noNumber(code: BitsCode | SetCode, raw: string): Decoded {
  return { kind: "bad", why: `“${raw}” is no ${code.base === 10 ? "" : `base-${code.base} `}number of “${code.name}”` };
}

export function decodeBits(code: BitsCode, raw: string, decode: Decode): Decoded {
  const number = parseDigits(raw, code);
  if (number === null) return noNumber(code, raw);
  for (const { bit, is, orUnset } of code.fixed) {
    if (((number >> BigInt(bit)) & 1n) === BigInt(is)) continue;
    return orUnset ? { kind: "unset" } : { kind: "bad", why: `bit ${bit} is not ${is}` };
  }
  const parts = new Map<string, Held>();
  for (const part of code.parts) {
    const bits = (number & mask(part.from, part.to)) >> BigInt(part.from);
    const width = BigInt(part.to - part.from + 1);
    const isSigned = part.code?.kind === "number" && part.code.least !== null && part.code.least.over < 0n;
    const value = isSigned && bits >> (width - 1n) === 1n ? bits - (1n << width) : bits;
    const held: Decoded = part.code
      ? decode(part.code, value.toString())
      : { kind: "number", number: exact(value), unit: "" };
    if (held.kind === "bad") return { kind: "bad", why: `“${part.name}”: ${held.why}` };
    parts.set(part.name, held);
  }
  return { kind: "parts", parts };
}

/** `over`: what the base has there, whose unnamed bits stay. */
export function encodeBits(code: BitsCode, held: Held, encode: Encode, over: string | null): Encoded {
  const before = over === null ? null : parseDigits(over, code);
  let number = before === null ? 0n : before & ~namedBits(code);
  if (held.kind === "unset") {
    const switchable = code.fixed.find(({ orUnset }) => orUnset);
    if (!switchable) return { kind: "cannot", why: `“${code.name}” has no bit that means unset` };
    if (switchable.is === 0) number |= mask(switchable.bit, switchable.bit);
    return spelled(number, code, over, null);
  }
  if (held.kind !== "parts") return { kind: "cannot", why: `${textOfHeld(held)} has no parts` };
  for (const { bit, is } of code.fixed) if (is === 1) number |= mask(bit, bit);
  const means = new Map(held.parts);
  let isRounded = false;
  for (const part of code.parts) {
    const said = held.parts.get(part.name);
    if (!said) continue;
    const one = encodePart(part, said, encode);
    if (typeof one === "string") return { kind: "cannot", why: `“${part.name}”: ${one}` };
    number |= one.bits << BigInt(part.from);
    if (one.means) {
      isRounded = true;
      means.set(part.name, one.means);
    }
  }
  return spelled(number, code, over, isRounded ? { kind: "parts", parts: means } : null);
}

function encodePart(
  part: BitsCode["parts"][number],
  held: Held,
  encode: Encode,
): { bits: bigint; means: Held | null } | string {
  const width = BigInt(part.to - part.from + 1);
  let whole: bigint | null = null;
  let means: Held | null = null;
  if (part.code) {
    const one = encode(part.code, held);
    if (one.kind === "cannot") return one.why;
    whole = /^-?\d+$/.test(one.text) ? BigInt(one.text) : null;
    ({ means } = one);
  } else {
    const number = numberIn(held)?.number;
    whole = number && number.under === 1n ? floorExact(number) : null;
  }
  if (whole === null) return `${textOfHeld(held)} is no whole number`;
  const bits = whole < 0n ? whole + (1n << width) : whole;
  if (bits < 0n || bits >> width !== 0n || (whole < 0n && bits >> (width - 1n) === 0n))
    return `${textOfHeld(held)} needs more than ${width} bit${width === 1n ? "" : "s"}`;
  return { bits, means };
}

function spelled(number: bigint, code: BitsCode | SetCode, like: string | null, means: Held | null): Encoded {
  const text = spellDigits(number, code, like);
  return code.digits !== null && text.length > code.digits
    ? { kind: "cannot", why: `“${code.name}” has only ${code.digits} digits` }
    : { kind: "spelled", text, means };
}

/** A number without any of its items means that nothing is set. */
export function decodeSet(code: SetCode, raw: string): Decoded {
  const number = parseDigits(raw, code);
  if (number === null) return noNumber(code, raw);
  const items = code.items.filter(({ bit }) => (number >> BigInt(bit)) & 1n);
  return items.length === 0
    ? { kind: "unset" }
    : { kind: "list", items: items.map(({ ours }) => ({ kind: "word", text: ours })) };
}

export function encodeSet(code: SetCode, held: Held, over: string | null): Encoded {
  const before = over === null ? null : parseDigits(over, code);
  let number = before === null ? 0n : before & ~namedBits(code);
  const items = held.kind === "unset" ? [] : held.kind === "list" || held.kind === "order" ? held.items : [held];
  for (const item of items) {
    const found = code.items.find(({ ours }) => ours === textOfHeld(item));
    if (!found) return { kind: "cannot", why: `“${code.name}” has no bit for ${textOfHeld(item)}` };
    number |= mask(found.bit, found.bit);
  }
  return spelled(number, code, over, null);
}
