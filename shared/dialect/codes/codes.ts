/** What a slot of board text means, and how the board spells a value. Nothing here throws, whatever the board wrote. */
import type { Code, Decoded, Encoded, Held, LettersCode, ListCode, Slot, TextCode, WordsCode } from "../dialect.ts";
import { compareExact, type Exact, exact, exactOf, floorExact, minus, nearestWhole, plus, times } from "../exact.ts";
import { decodeBits, decodeSet, encodeBits, encodeSet } from "./bits-code.ts";
import { bareText, heldOfOurs, inUnit, numberIn, sameHeld, textOfHeld } from "./held.ts";
import { decodeNumber, encodeNumber, endsOf, stepOf } from "./number-code.ts";

export { heldOfValue, sumOf, textOfHeld } from "./held.ts";

/** What the board's spelling means. Without a code it is what a script would write, less unit and quotes. */
export function decode(code: Code | null, raw: string): Decoded {
  switch (code?.kind) {
    case undefined:
      return { kind: "word", text: raw };
    case "number":
      return decodeNumber(code, raw);
    case "words":
      return decodeWord(code, raw);
    case "letters":
      return decodeLetters(code, raw);
    case "list":
      return decodeList(code, raw);
    case "bits":
      return decodeBits(code, raw, decode);
    case "set":
      return decodeSet(code, raw);
    case "text":
      return decodeText(code, raw);
  }
}

/**
 * How the board spells a value: the nearest step, of two the lower. `over`: what the base has in this slot, whose
 * unnamed bits and whose case of letters stay.
 */
export function encode(code: Code | null, held: Held, over: string | null = null): Encoded {
  switch (code?.kind) {
    case undefined:
      return encodePlain(held);
    case "number":
      return encodeNumber(code, held, over);
    case "words":
      return encodeWord(code, held);
    case "letters":
      return encodeLetters(code, held);
    case "list":
      return encodeList(code, held);
    case "bits":
      return encodeBits(code, held, encode, over);
    case "set":
      return encodeSet(code, held, over);
    case "text":
      return encodeText(code, held);
  }
}

/** The same for a slot, which may have bounds for whole numbers in place of a code. */
export function decodeSlot({ code, whole }: Slot, raw: string): Decoded {
  if (!whole) return decode(code, raw);
  const number = /^-?\d{1,15}$/.test(raw) ? Number(raw) : Number.NaN;
  return number >= whole.from && number <= whole.to
    ? { kind: "number", number: exactOf(raw)!, unit: "" }
    : { kind: "bad", why: `“${raw}” is no whole number from ${whole.from} to ${whole.to}` };
}

/** How a slot spells a value. */
export function encodeSlot({ code, whole }: Slot, held: Held, over: string | null = null): Encoded {
  if (!whole) return encode(code, held, over);
  const number = held.kind === "unset" ? null : numberIn(held)?.number;
  if (!number) return { kind: "cannot", why: `${textOfHeld(held)} is no whole number` };
  const isBeyond =
    compareExact(number, exact(BigInt(whole.from))) < 0 || compareExact(number, exact(BigInt(whole.to))) > 0;
  if (isBeyond)
    return { kind: "cannot", why: `${textOfHeld(held)} is beyond what the board takes: ${whole.from} to ${whole.to}` };
  const nearest = nearestWhole(number);
  const means: Held | null =
    number.under === 1n
      ? null
      : { kind: "number", number: exact(nearest), unit: held.kind === "number" ? held.unit : "" };
  return { kind: "spelled", text: nearest.toString(), means };
}

function encodePlain(held: Held): Encoded {
  if (held.kind === "unset") return { kind: "cannot", why: "without a code the board has no word for unset" };
  const text = bareText(held);
  return text === ""
    ? { kind: "cannot", why: "an empty text cannot be told from none" }
    : { kind: "spelled", text, means: null };
}

function decodeWord(code: WordsCode, raw: string): Decoded {
  const found = code.words.find(({ theirs }) => theirs === raw);
  if (!found) return { kind: "bad", why: `“${raw}” is no word of “${code.name}”` };
  return found.ours === null ? { kind: "unset" } : heldOfOurs(found.ours);
}

function encodeWord(code: WordsCode | LettersCode, held: Held): Encoded {
  const found = code.words.find(({ ours }) =>
    ours === null ? held.kind === "unset" : held.kind !== "unset" && sameHeld(heldOfOurs(ours), held),
  );
  return found
    ? { kind: "spelled", text: found.theirs, means: null }
    : { kind: "cannot", why: `“${code.name}” has no word for ${textOfHeld(held)}` };
}

function decodeLetters(code: LettersCode, raw: string): Decoded {
  const items: Held[] = [];
  const byLength = code.words.toSorted((a, b) => b.theirs.length - a.theirs.length);
  for (let at = 0; at < raw.length; ) {
    const found = byLength.find(({ theirs }) => raw.startsWith(theirs, at));
    if (!found) return { kind: "bad", why: `“${raw.slice(at)}” begins with no letter of “${code.name}”` };
    if (found.ours === null) {
      if (found.theirs.length < raw.length)
        return { kind: "bad", why: `“${found.theirs}” means unset, and stands alone` };
      return { kind: "unset" };
    }
    items.push({ kind: "word", text: found.ours });
    at += found.theirs.length;
  }
  return { kind: "order", items };
}

function encodeLetters(code: LettersCode, held: Held): Encoded {
  if (held.kind === "unset") return encodeWord(code, held);
  const items = held.kind === "order" || held.kind === "list" ? held.items : [held];
  let text = "";
  for (const item of items) {
    const one = encodeWord(code, item);
    if (one.kind === "cannot") return one;
    text += one.text;
  }
  return { kind: "spelled", text, means: null };
}

/** A list of nothing means that nothing is set. */
function decodeList(code: ListCode, raw: string): Decoded {
  const items: Held[] = [];
  for (const part of raw === "" ? [] : raw.split(code.by)) {
    const held = decode(code.of, part);
    if (held.kind === "bad") return held;
    if (held.kind !== "unset") items.push(held);
  }
  return items.length === 0 ? { kind: "unset" } : { kind: "list", items };
}

function encodeList(code: ListCode, held: Held): Encoded {
  const items = held.kind === "unset" ? [] : held.kind === "list" || held.kind === "order" ? held.items : [held];
  const texts: string[] = [];
  const means: Held[] = [];
  let isRounded = false;
  for (const item of items) {
    const one = encode(code.of, item);
    if (one.kind === "cannot") return one;
    if (one.text.includes(code.by))
      return { kind: "cannot", why: `${textOfHeld(item)} holds “${code.by}”, which stands between two items` };
    texts.push(one.text);
    means.push(one.means ?? item);
    isRounded ||= one.means !== null;
  }
  return { kind: "spelled", text: texts.join(code.by), means: isRounded ? { kind: "list", items: means } : null };
}

function decodeText({ within, escape: mark }: TextCode, raw: string): Decoded {
  if (within !== "" && (raw.length < 2 * within.length || !raw.startsWith(within) || !raw.endsWith(within)))
    return { kind: "bad", why: `“${raw}” does not stand within ${within}` };
  const inside = within === "" ? raw : raw.slice(within.length, raw.length - within.length);
  if (mark === "") return { kind: "text", text: inside };
  let text = "";
  for (let at = 0; at < inside.length; ) {
    const escaped =
      inside.startsWith(mark, at) &&
      [within, mark].find((each) => each !== "" && inside.startsWith(each, at + mark.length));
    text += escaped || inside[at];
    at += escaped ? mark.length + escaped.length : 1;
  }
  return { kind: "text", text };
}

function encodeText({ within, escape: mark, longest }: TextCode, held: Held): Encoded {
  if (held.kind === "unset") return { kind: "cannot", why: "a text has no word for unset" };
  const text = bareText(held);
  if (longest !== null && text.length > longest)
    return { kind: "cannot", why: `“${text}” is longer than the ${longest} characters that the board takes` };
  if (/[\r\n]/.test(text)) return { kind: "cannot", why: "a text of the board cannot go on in the next line" };
  if (mark === "" && within !== "" && text.includes(within))
    return { kind: "cannot", why: `“${text}” holds ${within}, which ends a text` };
  let spelled = text;
  if (mark !== "") {
    spelled = spelled.replaceAll(mark, () => mark + mark);
    if (within !== "" && within !== mark) spelled = spelled.replaceAll(within, () => mark + within);
  }
  return { kind: "spelled", text: within + spelled + within, means: null };
}

/** A slot, or a part of one, that takes a share of a value. */
export type Term = Pick<Slot, "code" | "whole">;

/**
 * Splits a value over several slots, the largest step first: each takes as much as the others leave room for. Null
 * where a slot is no number, or the value is beyond what they can say together.
 */
export function splitSum(terms: readonly Term[], held: Held): readonly Held[] | null {
  const value = numberIn(held);
  const shares = terms.map(shareOf);
  if (!value || shares.some((share) => !share)) return null;
  const unit = shares.map((share) => share!.unit).find((each) => each !== "") ?? value.unit;
  let rest = inUnit(value, unit);
  if (!rest) return null;
  const order = shares.map((share, i) => ({ ...share!, i })).sort((a, b) => compareExact(b.step, a.step));
  const split = new Array<Held>(terms.length);
  for (const [at, { least, most, step, i }] of order.entries()) {
    const others = order.slice(at + 1).reduce((sum, other) => plus(sum, other.least), ZERO);
    const room = minus(rest, others);
    const isLast = at === order.length - 1;
    let share = isLast ? room : plus(least, times(step, exact(floorExact(quotient(minus(room, least), step)))));
    if (compareExact(share, least) < 0) share = least;
    if (most && compareExact(share, most) > 0) share = isLast ? share : most;
    split[i] = { kind: "number", number: share, unit };
    rest = minus(rest, share);
  }
  return split;
}

const ZERO = exact(0n);

function quotient(a: Exact, b: Exact): Exact {
  return exact(a.over * b.under, a.under * b.over);
}

interface Share {
  readonly least: Exact;
  readonly most: Exact | null;
  readonly step: Exact;
  readonly unit: string;
}

function shareOf({ code, whole }: Term): Share | null {
  if (whole) return { least: exact(BigInt(whole.from)), most: exact(BigInt(whole.to)), step: exact(1n), unit: "" };
  if (code === null) return { least: ZERO, most: null, step: exact(1n), unit: "" };
  const step = code.kind === "number" ? stepOf(code) : null;
  if (code.kind !== "number" || !step) return null;
  const ends = endsOf(code);
  return { least: ends?.least ?? code.from, most: ends?.most ?? null, step, unit: code.unit };
}
