/** What slots hold, between a board's spelling and a script's. */
import { convert, unitFamily, unitSymbol } from "../../catalogue/units.ts";
import { printValue } from "../../syntax/print-value.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Value } from "../../syntax/value.ts";
import type { Held } from "../dialect.ts";
import {
  compareExact,
  decimalOf,
  dividedBy,
  type Exact,
  exactOf,
  exactOfNumber,
  numberOf,
  plus,
  times,
} from "../exact.ts";

/** The unit of a number that is a channel. */
export const CHANNEL = "ch";

export type HeldNumber = Extract<Held, { kind: "number" }>;

/** What a board's slot means in a script, as a script writes it: text in quotes, numbers with their unit. */
export function textOfHeld(held: Held): string {
  switch (held.kind) {
    case "number":
      if (held.unit === CHANNEL) return `ch${decimalOf(held.number)}`;
      return held.unit === "" ? decimalOf(held.number) : `${decimalOf(held.number)} ${held.unit}`;
    case "word":
      return held.text;
    case "text":
      return quote(held.text);
    case "list":
      return held.items.map(textOfHeld).join(", ");
    case "order":
      return held.items.map(textOfHeld).join(" ");
    case "parts":
      return [...held.parts].map(([name, part]) => `${name} ${textOfHeld(part)}`).join(", ");
    case "unset":
      return "unset";
  }
}

/** The value of a script's entry, or of a part of one. */
export function heldOfValue(value: Value): Held {
  switch (value.kind) {
    case "quantity":
      return { kind: "number", number: exactOf(value.digits) ?? exactOfNumber(value.number), unit: value.unit };
    case "integer":
      return { kind: "number", number: exactOfNumber(value.number), unit: "" };
    case "text":
      return { kind: "text", text: value.text };
    case "colour":
      return value.named ? { kind: "word", text: value.colour } : { kind: "text", text: value.colour };
    case "list":
      return { kind: "list", items: value.items.map(heldOfValue) };
    case "order":
      return { kind: "order", items: value.words.map((text) => ({ kind: "word", text })) };
    default:
      return { kind: "word", text: printValue(value) };
  }
}

/** Our side of a word of a dialect: a name, a value with its unit, or text in quotes. */
export function heldOfOurs(ours: string): Held {
  const quoted = /^"((?:[^"\\]|\\["\\])*)"$/.exec(ours);
  if (quoted) return { kind: "text", text: quoted[1]!.replace(/\\(["\\])/g, "$1") };
  const channel = /^ch(\d+)$/.exec(ours);
  if (channel) return { kind: "number", number: exactOf(channel[1]!)!, unit: CHANNEL };
  const amount = /^(-?\d+(?:\.\d+)?)(?:[ \t]*(\S+))?$/.exec(ours);
  const unit = amount?.[2] === undefined ? "" : unitSymbol(amount[2]);
  if (amount && unit !== undefined) return { kind: "number", number: exactOf(amount[1]!)!, unit };
  return { kind: "word", text: ours.replace(/[ \t]+/g, " ") };
}

/** A number of any kind of holding: digits that have no code are a number too. Null for what is none. */
export function numberIn(held: Held): HeldNumber | null {
  if (held.kind === "number") return held;
  if (held.kind === "order" || held.kind === "list") return held.items.length === 1 ? numberIn(held.items[0]!) : null;
  if (held.kind !== "word") return null;
  const found = heldOfOurs(held.text);
  return found.kind === "number" ? found : null;
}

/** The number in a unit; null across families. A bare number takes any unit but that of channels. */
export function inUnit({ number, unit }: HeldNumber, wanted: string): Exact | null {
  if (unit === wanted) return number;
  if (unit === "" || wanted === "") return unit === CHANNEL || wanted === CHANNEL || unit === "" ? number : null;
  return exactIn(number, unit, wanted);
}

/** A number in another unit of its family, exact but for decibels; null across families. */
export function exactIn(number: Exact, from: string, to: string): Exact | null {
  if (from === to) return number;
  const [a, b] = [sizeOf(from), sizeOf(to)];
  if (a && b && unitFamily(from) === unitFamily(to)) return dividedBy(times(number, a), b);
  const rounded = convert(numberOf(number), from, to);
  return rounded === undefined || !Number.isFinite(rounded) ? null : exactOf(rounded.toPrecision(6));
}

/** The size of a unit in the first of its family; null where it has none, as that of decibels. */
function sizeOf(symbol: string): Exact | null {
  const unit = unitFamily(symbol)?.units.find((each) => each.symbol === symbol);
  if (!unit || unit.logarithm) return null;
  // A kilometre per hour is 1 / 3.6 m/s: the double for it is no exact number, and that of its inverse is.
  const inverse = Number((1 / unit.size).toPrecision(12));
  return String(unit.size).length > 14 ? dividedBy(exactOfNumber(1), exactOfNumber(inverse)) : exactOfNumber(unit.size);
}

/** Whether two holdings are the same value: numbers by their amount, words in a list in any order are not. */
export function sameHeld(a: Held, b: Held): boolean {
  const [x, y] = [numberIn(a), numberIn(b)];
  if (x && y) {
    const other = inUnit(y, x.unit);
    return other !== null && compareExact(x.number, other) === 0;
  }
  return bareText(a) === bareText(b);
}

/** As the board would write it without a code: less unit and quotes. */
export function bareText(held: Held): string {
  if (held.kind === "text") return held.text;
  if (held.kind === "number") return decimalOf(held.number);
  if (held.kind === "list") return held.items.map(bareText).join(", ");
  return held.kind === "order" ? held.items.map(bareText).join(" ") : textOfHeld(held);
}

/** The sum of numbers in one unit; `bad` where one is no number or of another kind. */
export function sumOf(helds: readonly Held[]): HeldNumber | { readonly kind: "bad"; readonly why: string } {
  let sum: HeldNumber | null = null;
  for (const held of helds) {
    const number = numberIn(held);
    if (!number) return { kind: "bad", why: `“${textOfHeld(held)}” is no number, so it cannot be added up` };
    if (!sum) sum = number;
    else {
      const unit: string = sum.unit || number.unit;
      const [x, y]: [Exact | null, Exact | null] = [inUnit(sum, unit), inUnit(number, unit)];
      if (!x || !y) return { kind: "bad", why: `${sum.unit} and ${number.unit} cannot be added up` };
      sum = { kind: "number", number: plus(x, y), unit };
    }
  }
  return sum ?? { kind: "bad", why: "there is nothing to add up" };
}
