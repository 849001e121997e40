/** Parses values of every type but `fields`. */
import colourNames from "color-name";
import type { QuantityType, SimpleType } from "../catalogue/specs.ts";
import { unitFamily } from "../catalogue/units.ts";
import { BAD_STRING } from "../syntax/parse-line.ts";
import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  type ReadContext,
  unknownName,
} from "../syntax/read-context.ts";
import { commaFault, missingUnit, readNumber, readRange, withoutUnitRepair, wrongUnit } from "../syntax/read-number.ts";
import { readCell, readDate, readSize } from "../syntax/read-place.ts";
import type { Quantity, Value } from "../syntax/value.ts";

/** Whether a word may follow a value on its line: a name of another field, for one. */
export type MayFollow = (word: string) => boolean;

/** Parses one value of a simple type; `name` is that of its setting, for messages. */
export function readSimple(context: ReadContext, type: SimpleType, name: string, mayFollow: MayFollow): Value | Fault {
  switch (type.is) {
    case "quantity":
      return readQuantity(context, type, name, mayFollow);
    case "integer":
      return readInteger(context, name, "alone");
    case "choice":
      return readChoice(
        context,
        type.choices.map((choice) => choice.word),
        name,
      );
    case "yes-no": {
      const word = readChoice(context, ["yes", "no"], name);
      return isFault(word) ? word : { kind: "yes-no", yes: word.word === "yes", start: word.start, end: word.end };
    }
    case "text":
      return readText(context, type.longest, name);
    case "date":
      return readDate(context);
    case "order":
      return readOrder(context, type.words, name, mayFollow);
    case "range": {
      const range = readRange(context);
      if (isFault(range)) return range;
      const wrong = checkUnit(context, range.to, type.of, name) ?? checkUnit(context, range.from, type.of, name);
      return wrong ?? range;
    }
    case "size":
      return readSize(context);
    case "cell":
      return readCell(context);
    case "colour":
      return readColour(context, name);
    case "list":
      return readList(context, type, name, mayFollow);
  }
}

function readQuantity(context: ReadContext, type: QuantityType, name: string, mayFollow: MayFollow): Quantity | Fault {
  const quantity = readNumber(context);
  if (isFault(quantity)) return quantity;
  const comma = commaFault(context, quantity);
  if (comma) return comma;
  if (quantity.unit === "" && type.unit !== "") {
    const before = context.scan.lastEnd();
    const word = context.scan.symbol();
    context.scan.moveTo(before);
    if (word && !mayFollow(word.text)) {
      const units = unitsLike(type.unit);
      return unknownName(
        word,
        word.text,
        units,
        `There is no unit “${word.text}”; ${name} is given in ${units.join(", ")}.`,
      );
    }
  }
  // A mark of inches or degrees is part of the repair: the unit's symbol replaces it.
  const mark = quantity.unit === "" && context.scan.at() === quantity.end ? context.scan.match(/["″°]/y) : null;
  return checkUnit(context, mark ? { ...quantity, end: mark.end } : quantity, type, name) ?? quantity;
}

/** The fault of a number whose unit is missing or of another family; null if there is none. */
function checkUnit(context: ReadContext, quantity: Quantity, type: QuantityType, name: string): Fault | null {
  if (quantity.unit === type.unit) return null;
  if (quantity.unit === "") return missingUnit(context.units, quantity, [type.unit], name);
  if (type.unit !== "" && context.units.convert(1, quantity.unit, type.unit) !== undefined) return null;
  return wrongUnit(quantity, type.unit, name);
}

/** The symbols of all units of the same family, `unit` itself first. */
export function unitsLike(unit: string): string[] {
  const all = unitFamily(unit)?.units.map((each) => each.symbol) ?? [];
  return [unit, ...all.filter((symbol) => symbol !== unit)];
}

function readInteger(context: ReadContext, name: string, place: "alone" | "in-list"): Value | Fault {
  const start = context.scan.at();
  const number = readNumber(context);
  // Letters directly after a whole number are not a mistyped unit: 4S, 12x.
  if (isFault(number) && number.unknown) {
    const digits = context.scan.text(start, number.start);
    return fault(
      "unknown-name",
      number,
      `${name} is a bare number without unit: remove “${number.unknown.word}”.`,
      withoutUnitRepair({ digits, start, end: number.end }),
    );
  }
  if (isFault(number)) return number;
  const comma = place === "alone" ? commaFault(context, number) : null;
  if (comma) return comma;
  if (number.unit !== "") return wrongUnit(number, "", name);
  if (!/^-?\d+$/.test(number.digits))
    return fault("wrong-type", number, `${name} is a whole number; “${number.digits}” is not.`);
  if (!Number.isSafeInteger(number.number))
    return fault("wrong-type", number, `${name} is a whole number that can be counted; “${number.digits}” cannot.`);
  return { kind: "integer", number: number.number || 0, start: number.start, end: number.end };
}

/** Words of other languages for yes and no. */
const YES_NO_SYNONYMS: Readonly<Record<string, string | undefined>> = {
  true: "yes",
  on: "yes",
  false: "no",
  off: "no",
};

function readChoice(
  context: ReadContext,
  words: readonly string[],
  name: string,
): { kind: "choice"; word: string; start: number; end: number } | Fault {
  const word = context.scan.match(/\d+:\d+(?![A-Za-z0-9_-])/y) ?? context.scan.name();
  if (!word) {
    const rest = context.scan.rest();
    const spelled = rest.text.replaceAll('"', "").toLowerCase().replaceAll("_", "-");
    const meant = words.filter((each) => each === spelled);
    return fault(
      "wrong-type",
      nextCols(context),
      `${name} is one of ${words.join(", ")}; ${describeNext(context)}.`,
      ...meant.map((each) => ({ title: `Write ${each}`, start: rest.start, end: rest.end, text: each })),
    );
  }
  if (!words.includes(word.text)) {
    const message = `“${word.text}” is no choice of ${name}: it is one of ${words.join(", ")}.`;
    const meant = words.filter((each) => each === YES_NO_SYNONYMS[word.text]);
    const unknown = unknownName(word, word.text, words, message);
    return meant.length === 0
      ? unknown
      : { ...unknown, unknown: { word: word.text, candidates: meant, chosen: true, translated: true } };
  }
  addPiece(context, "choice", word);
  return { kind: "choice", word: word.text, start: word.start, end: word.end };
}

function readText(context: ReadContext, longest: number, name: string): Value | Fault {
  const text = context.scan.quoted();
  if (!text) {
    const next = nextCols(context);
    const broken = context.scan.rest().text.startsWith('"');
    return fault(
      broken ? "syntax" : "wrong-type",
      next,
      broken ? BAD_STRING : `${name} is a text in quotes; ${describeNext(context)}.`,
    );
  }
  addPiece(context, "string", text);
  if (text.text.length > longest)
    return fault("wrong-type", text, `${name} has room for ${longest} characters; this text has ${text.text.length}.`);
  return { kind: "text", text: text.text, start: text.start, end: text.end };
}

function readOrder(context: ReadContext, words: readonly string[], name: string, mayFollow: MayFollow): Value | Fault {
  const chosen: string[] = [];
  const start = context.scan.at();
  while (!context.scan.done()) {
    const before = context.scan.lastEnd();
    const word = context.scan.name();
    if (!word) break;
    if (mayFollow(word.text)) {
      context.scan.moveTo(before);
      break;
    }
    if (!words.includes(word.text))
      return unknownName(word, word.text, words, `“${word.text}” is none of ${words.join(", ")}.`);
    if (chosen.includes(word.text))
      return fault("wrong-type", word, `“${word.text}” stands twice: in ${name} each comes once.`);
    addPiece(context, "choice", word);
    chosen.push(word.text);
  }
  if (chosen.length === 0)
    return fault(
      "wrong-type",
      nextCols(context),
      `${name} names some of ${words.join(", ")}; ${describeNext(context)}.`,
    );
  return { kind: "order", words: chosen, start, end: context.scan.lastEnd() };
}

function readColour(context: ReadContext, name: string): Value | Fault {
  const text = context.scan.quoted();
  if (text) {
    addPiece(context, "colour", text);
    if (/^#[0-9a-fA-F]{6}$/.test(text.text))
      return { kind: "colour", colour: text.text.toLowerCase(), named: false, start: text.start, end: text.end };
    return fault(
      "wrong-type",
      text,
      `A colour in quotes is six hexadecimal digits, as in "#ff8800"; “${text.text}” is not.`,
    );
  }
  const word = context.scan.name();
  if (!word)
    return fault(
      "wrong-type",
      nextCols(context),
      `${name} is a colour: a CSS colour name, or "#rrggbb"; ${describeNext(context)}.`,
    );
  if (!Object.hasOwn(colourNames, word.text)) {
    return unknownName(word, word.text, Object.keys(colourNames), `CSS has no colour “${word.text}”.`);
  }
  addPiece(context, "colour", word);
  return { kind: "colour", colour: word.text, named: true, start: word.start, end: word.end };
}

function readList(
  context: ReadContext,
  type: Extract<SimpleType, { is: "list" }>,
  name: string,
  mayFollow: MayFollow,
): Value | Fault {
  const { of } = type;
  const start = context.scan.at();
  const items: Value[] = [];
  do {
    const item = readItem(context, of, name, mayFollow);
    if (isFault(item)) return item;
    items.push(item);
  } while (context.scan.mark(","));
  const withUnits = of.is === "quantity" ? shareLastUnit(items as Quantity[]) : items;
  if (of.is === "quantity") {
    // From the last: the others without a unit have that of the last.
    for (const item of (withUnits as Quantity[]).toReversed()) {
      const wrong = checkUnit(context, item, of, name);
      if (wrong) return wrong;
    }
  }
  const list = { kind: "list" as const, items: withUnits, start, end: context.scan.lastEnd() };
  if (items.length < type.fewest || items.length > type.most) {
    const expected = type.fewest === type.most ? `${type.most}` : `${type.fewest} to ${type.most}`;
    return fault("wrong-type", list, `${name} lists ${expected} values; this line has ${items.length}.`);
  }
  return list;
}

/** One value of a list: a comma behind it begins the next one, and no decimals. */
function readItem(context: ReadContext, of: SimpleType, name: string, mayFollow: MayFollow): Value | Fault {
  if (of.is === "quantity") return readNumber(context);
  return of.is === "integer" ? readInteger(context, name, "in-list") : readSimple(context, of, name, mayFollow);
}

/** The items, those without a unit having the unit of the last one. */
function shareLastUnit(items: readonly Quantity[]): Quantity[] {
  const unit = items.at(-1)?.unit ?? "";
  return items.map((item) => (item.unit === "" ? { ...item, unit } : item));
}
