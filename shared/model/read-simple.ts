/** Values of one piece, read by their type. */
import colourNames from "color-name";
import type { QuantityType, SimpleType } from "../catalogue/types.ts";
import { unitFamily } from "../catalogue/units.ts";
import { BAD_STRING } from "../syntax/line.ts";
import { commaFault, missingUnit, readNumber, readRange, without, wrongUnit } from "../syntax/read-number.ts";
import { readCell, readDate, readSize } from "../syntax/read-place.ts";
import { type Fault, fault, found, isFault, nextCols, piece, type Reading, unknownName } from "../syntax/reading.ts";
import type { Quantity, Value } from "../syntax/value.ts";

/** Names that may follow a value on its line: the other fields. */
export type Following = (word: string) => boolean;

/** Reads one value of a simple type; `following` tells which words may come after it. */
export function readSimple(reading: Reading, type: SimpleType, name: string, following: Following): Value | Fault {
  switch (type.is) {
    case "quantity":
      return readQuantity(reading, type, name, following);
    case "integer":
      return readInteger(reading, name);
    case "choice":
      return readChoice(
        reading,
        type.choices.map((choice) => choice.word),
        name,
      );
    case "yes-no": {
      const word = readChoice(reading, ["yes", "no"], name);
      return isFault(word) ? word : { kind: "yes-no", yes: word.word === "yes", start: word.start, end: word.end };
    }
    case "text":
      return readText(reading, type.longest, name);
    case "date":
      return readDate(reading);
    case "order":
      return readOrder(reading, type.words, name, following);
    case "range": {
      const range = readRange(reading);
      if (isFault(range)) return range;
      const wrong = checkUnit(reading, range.to, type.of, name) ?? checkUnit(reading, range.from, type.of, name);
      return wrong ?? range;
    }
    case "size":
      return readSize(reading);
    case "cell":
      return readCell(reading);
    case "colour":
      return readColour(reading, name);
    case "list":
      return readList(reading, type, name, following);
  }
}

function readQuantity(reading: Reading, type: QuantityType, name: string, following: Following): Quantity | Fault {
  const quantity = readNumber(reading);
  if (isFault(quantity)) return quantity;
  const comma = commaFault(reading, quantity);
  if (comma) return comma;
  if (quantity.unit === "" && type.unit !== "") {
    const before = reading.scan.last();
    const word = reading.scan.symbol();
    reading.scan.go(before);
    if (word && !following(word.text)) {
      const units = unitsLike(type.unit);
      return unknownName(
        word,
        word.text,
        units,
        `There is no unit “${word.text}”; ${name} is given in ${units.join(", ")}.`,
      );
    }
  }
  // A mark of inches or degrees goes where the unit's own symbol comes.
  const mark = quantity.unit === "" && reading.scan.at() === quantity.end ? reading.scan.match(/["″°]/y) : null;
  return checkUnit(reading, mark ? { ...quantity, end: mark.end } : quantity, type, name) ?? quantity;
}

/** The fault in a number's unit, if there is one. */
function checkUnit(reading: Reading, quantity: Quantity, type: QuantityType, name: string): Fault | null {
  if (quantity.unit === type.unit) return null;
  if (quantity.unit === "") return missingUnit(quantity, [type.unit], name);
  if (type.unit !== "" && reading.units.convert(1, quantity.unit, type.unit) !== undefined) return null;
  return wrongUnit(quantity, type.unit, name);
}

/** Every unit in which a quantity may be said, its usual one first. */
export function unitsLike(unit: string): string[] {
  const all = unitFamily(unit)?.units.map((each) => each.symbol) ?? [];
  return [unit, ...all.filter((symbol) => symbol !== unit)];
}

function readInteger(reading: Reading, name: string): Value | Fault {
  const start = reading.scan.at();
  const number = readNumber(reading);
  // Of what is stuck to a whole number no unit was meant: 4S, 12x.
  if (isFault(number) && number.unknown) {
    const digits = reading.scan.text(start, number.start);
    return fault(
      "unknown-name",
      number,
      `${name} is a bare number without unit: take “${number.unknown.word}” away.`,
      without({ digits, start, end: number.end }),
    );
  }
  if (isFault(number)) return number;
  const comma = commaFault(reading, number);
  if (comma) return comma;
  if (number.unit !== "") return wrongUnit(number, "", name);
  if (!/^-?\d+$/.test(number.digits))
    return fault("wrong-type", number, `${name} is a whole number; “${number.digits}” is not.`);
  if (!Number.isSafeInteger(number.number))
    return fault("wrong-type", number, `${name} is a whole number that can be counted; “${number.digits}” cannot.`);
  return { kind: "integer", number: number.number || 0, start: number.start, end: number.end };
}

/** How others say yes and no. */
const SWITCHED: Readonly<Record<string, string | undefined>> = { true: "yes", on: "yes", false: "no", off: "no" };

function readChoice(
  reading: Reading,
  words: readonly string[],
  name: string,
): { kind: "choice"; word: string; start: number; end: number } | Fault {
  const word = reading.scan.match(/\d+:\d+(?![A-Za-z0-9_-])/y) ?? reading.scan.name();
  if (!word) {
    const said = reading.scan.rest();
    const spelled = said.text.replaceAll('"', "").toLowerCase().replaceAll("_", "-");
    const meant = words.filter((each) => each === spelled);
    return fault(
      "wrong-type",
      nextCols(reading),
      `${name} is one of ${words.join(", ")}; ${found(reading)}.`,
      ...meant.map((each) => ({ title: `Write ${each}`, start: said.start, end: said.end, text: each })),
    );
  }
  if (!words.includes(word.text)) {
    const message = `“${word.text}” is no choice of ${name}: it is one of ${words.join(", ")}.`;
    const meant = words.filter((each) => each === SWITCHED[word.text]);
    const unknown = unknownName(word, word.text, words, message);
    return meant.length === 0 ? unknown : { ...unknown, unknown: { word: word.text, candidates: meant, chosen: true } };
  }
  piece(reading, "choice", word);
  return { kind: "choice", word: word.text, start: word.start, end: word.end };
}

function readText(reading: Reading, longest: number, name: string): Value | Fault {
  const text = reading.scan.quoted();
  if (!text) {
    const next = nextCols(reading);
    const broken = reading.scan.rest().text.startsWith('"');
    return fault(
      broken ? "syntax" : "wrong-type",
      next,
      broken ? BAD_STRING : `${name} is a text in quotes; ${found(reading)}.`,
    );
  }
  piece(reading, "string", text);
  if (text.text.length > longest)
    return fault("wrong-type", text, `${name} has room for ${longest} characters; this text has ${text.text.length}.`);
  return { kind: "text", text: text.text, start: text.start, end: text.end };
}

function readOrder(reading: Reading, words: readonly string[], name: string, following: Following): Value | Fault {
  const said: string[] = [];
  const start = reading.scan.at();
  while (!reading.scan.done()) {
    const before = reading.scan.last();
    const word = reading.scan.name();
    if (!word) break;
    if (following(word.text)) {
      reading.scan.go(before);
      break;
    }
    if (!words.includes(word.text))
      return unknownName(word, word.text, words, `“${word.text}” is none of ${words.join(", ")}.`);
    if (said.includes(word.text))
      return fault("wrong-type", word, `“${word.text}” stands twice: in ${name} each comes once.`);
    piece(reading, "choice", word);
    said.push(word.text);
  }
  if (said.length === 0)
    return fault("wrong-type", nextCols(reading), `${name} names some of ${words.join(", ")}; ${found(reading)}.`);
  return { kind: "order", words: said, start, end: reading.scan.last() };
}

function readColour(reading: Reading, name: string): Value | Fault {
  const text = reading.scan.quoted();
  if (text) {
    piece(reading, "colour", text);
    if (/^#[0-9a-fA-F]{6}$/.test(text.text))
      return { kind: "colour", colour: text.text.toLowerCase(), named: false, start: text.start, end: text.end };
    return fault(
      "wrong-type",
      text,
      `A colour in quotes is six hexadecimal digits, as in "#ff8800"; “${text.text}” is not.`,
    );
  }
  const word = reading.scan.name();
  if (!word)
    return fault(
      "wrong-type",
      nextCols(reading),
      `${name} is a colour: a CSS colour name, or "#rrggbb"; ${found(reading)}.`,
    );
  if (!Object.hasOwn(colourNames, word.text)) {
    return unknownName(word, word.text, Object.keys(colourNames), `CSS has no colour “${word.text}”.`);
  }
  piece(reading, "colour", word);
  return { kind: "colour", colour: word.text, named: true, start: word.start, end: word.end };
}

function readList(
  reading: Reading,
  type: Extract<SimpleType, { is: "list" }>,
  name: string,
  following: Following,
): Value | Fault {
  const { of } = type;
  const start = reading.scan.at();
  const items: Value[] = [];
  do {
    const item = of.is === "quantity" ? readNumber(reading) : readSimple(reading, of, name, following);
    if (isFault(item)) return item;
    items.push(item);
  } while (reading.scan.mark(","));
  const lent = of.is === "quantity" ? lendUnit(items as Quantity[]) : items;
  if (of.is === "quantity") {
    // From the last: its unit is the one that the others have borrowed.
    for (const item of (lent as Quantity[]).toReversed()) {
      const wrong = checkUnit(reading, item, of, name);
      if (wrong) return wrong;
    }
  }
  const list = { kind: "list" as const, items: lent, start, end: reading.scan.last() };
  if (items.length < type.fewest || items.length > type.most) {
    const wanted = type.fewest === type.most ? `${type.most}` : `${type.fewest} to ${type.most}`;
    return fault("wrong-type", list, `${name} lists ${wanted} values; this line has ${items.length}.`);
  }
  return list;
}

/** A unit on the last number of a list serves those that have none. */
function lendUnit(items: readonly Quantity[]): Quantity[] {
  const unit = items.at(-1)?.unit ?? "";
  return items.map((item) => (item.unit === "" ? { ...item, unit } : item));
}
