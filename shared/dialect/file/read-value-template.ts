/** Reads the value on the right side of a fact: constants, slots, and values made of both. */
import type { SettingSpec } from "../../catalogue/specs.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Ref, Template, ValueTemplate } from "../dialect.ts";
import { factScanner, unfit } from "./fact-scanner.ts";
import { endOfWord, readTemplate, refOf, slotFault, splitAt, templateOf, trimmed } from "./read-template.ts";

type FieldTemplate = { name: Template; value: ValueTemplate };

/** A value in these columns, as one of the `settings` that it may be of would have it. */
export function readValue(text: string, at: Cols, settings: readonly SettingSpec[]): ValueTemplate | Fault {
  if (!text.slice(at.start, at.end).includes("{")) return { kind: "constant", text: text.slice(at.start, at.end) };
  const types = settings.flatMap((each) => each.types);
  const names = new Set(types.flatMap((type) => (type.is === "fields" ? type.fields.map(({ name }) => name) : [])));
  const isFields = types.length > 0 && types.every(({ is }) => is === "fields");
  const fields = names.size > 0 ? fieldsIn(text, at, names, isFields) : [];
  if (fields.length === 0) return readItems(text, at);
  const read: FieldTemplate[] = [];
  for (const each of fields) {
    const field = readField(text, each);
    if (isFault(field)) return field;
    read.push(field);
  }
  return { kind: "fields", fields: read };
}

/**
 * The columns of fields one after another, as `slope {s} end {e}` or `{f} {v}`: none where the value begins with no
 * name of a field. `mayBeSlot`: a slot at the beginning is such a name too, and so is one behind a whole value.
 */
function fieldsIn(text: string, at: Cols, names: ReadonlySet<string>, mayBeSlot: boolean): Cols[] {
  const fields: { start: number; end: number }[] = [];
  let words = 0;
  let joined = false;
  for (const word of splitAt(text, at, /[ \t]+/y)) {
    const said = text.slice(word.start, word.end);
    const isSlot = mayBeSlot && words !== 1 && !joined && said.includes("{") && templateOf(said) !== null;
    if (names.has(said) || isSlot) {
      fields.push({ ...word });
      words = 1;
    } else if (fields.length === 0) return [];
    else {
      fields.at(-1)!.end = word.end;
      words++;
    }
    joined = /^(\+|to|x)$|,$/.test(said);
  }
  return fields;
}

function readField(text: string, at: Cols): FieldTemplate | Fault {
  const head = { start: at.start, end: endOfWord(text, at.start, at.end) };
  const name = readTemplate(text, head);
  if (isFault(name)) return name;
  const rest = trimmed(text, head.end, at.end);
  if (rest.start === rest.end)
    return unfit(head, `What “${text.slice(head.start, head.end)}” is set to is missing: a slot, or a value.`);
  const value = readItems(text, rest);
  return isFault(value) ? value : { name, value };
}

/** One value, or several with commas between. */
function readItems(text: string, at: Cols): ValueTemplate | Fault {
  const items = splitAt(text, at, /,/y);
  if (items.length === 1) return readOne(text, at);
  const read: ValueTemplate[] = [];
  for (const item of items) {
    const value = readOne(text, item);
    if (isFault(value)) return value;
    read.push(value);
  }
  return { kind: "list", items: read };
}

/** A value that stands alone, or within another one. */
export function readOne(text: string, at: Cols): ValueTemplate | Fault {
  const said = text.slice(at.start, at.end);
  if (said === "") return unfit({ start: Math.max(0, at.start - 1), end: at.start }, "A value is missing here.");
  if (!said.includes("{")) return { kind: "constant", text: said };
  if (said.startsWith('"')) {
    const quoted = factScanner(text, at).quoted();
    if (quoted?.end !== at.end)
      return unfit(at, 'Text in quotes ends with its quote: write “"” at its end, and nothing behind it.');
    const parts = templateOf(quoted.text);
    return parts ? { kind: "text", parts } : slotFault(text, at);
  }
  const range = splitAt(text, at, /[ \t]to[ \t]/y);
  if (range.length === 2) return both(text, range, readOne, (from, to) => ({ kind: "range", from, to }));
  const size = splitAt(text, at, /[ \t]x[ \t]/y);
  if (size.length === 2) return both(text, size, readOne, (columns, rows) => ({ kind: "size", columns, rows }));
  const terms = splitAt(text, at, /\+/y);
  return terms.length > 1 ? readTerms(text, terms) : readWords(text, at);
}

/** `{h} + {l} V`: the unit stands behind the last. */
function readTerms(text: string, terms: readonly Cols[]): ValueTemplate | Fault {
  const refs: Ref[] = [];
  let unit = "";
  for (const [i, term] of terms.entries()) {
    const isLast = i === terms.length - 1;
    const first = { start: term.start, end: endOfWord(text, term.start, term.end) };
    const rest = trimmed(text, first.end, term.end);
    const ref = refOf(text.slice(first.start, first.end));
    if (!ref)
      return unfit(
        first.start < first.end ? first : { start: term.start - 1, end: term.start },
        "Only slots are added up, as in “{h} + {l}”.",
      );
    if (rest.start < rest.end) {
      const symbol = isLast ? unitSymbol(text.slice(rest.start, rest.end)) : undefined;
      if (symbol === undefined) return isLast ? noUnit(text, rest) : unfit(rest, UNIT_ONCE);
      unit = symbol;
    }
    refs.push(ref);
  }
  return { kind: "value", terms: refs, unit };
}

const UNIT_ONCE = "The unit stands once, behind the last slot, as in “{h} + {l} V”.";

function noUnit(text: string, at: Cols): Fault {
  const word = text.slice(at.start, at.end);
  return {
    ...unfit(at, `There is no unit “${word}”: write one that the setting takes, as “V”, or leave it out.`),
    code: "unknown-name",
  };
}

/** A slot with or without a unit, or words and slots with blanks between them: an order. */
function readWords(text: string, at: Cols): ValueTemplate | Fault {
  const words = splitAt(text, at, /[ \t]+/y);
  const ref = refOf(text.slice(words[0]!.start, words[0]!.end));
  if (ref && words.length === 1) return { kind: "value", terms: [ref], unit: "" };
  const last = words.at(-1)!;
  const unit = unitSymbol(text.slice(last.start, last.end));
  if (ref && words.length === 2 && unit !== undefined) return { kind: "value", terms: [ref], unit };
  if (words.length === 1) {
    const parts = readTemplate(text, words[0]!);
    return isFault(parts) ? parts : { kind: "word", parts };
  }
  const items: ValueTemplate[] = [];
  for (const word of words) {
    const said = text.slice(word.start, word.end);
    const one = refOf(said);
    if (!one && said.includes("{")) return slotFault(text, word);
    items.push(one ? { kind: "value", terms: [one], unit: "" } : { kind: "constant", text: said });
  }
  return { kind: "order", items };
}

/** Two values of one kind with something between. */
export function both(
  text: string,
  [a, b]: readonly Cols[],
  read: (text: string, at: Cols) => ValueTemplate | Fault,
  make: (a: ValueTemplate, b: ValueTemplate) => ValueTemplate,
): ValueTemplate | Fault {
  const first = read(text, a!);
  if (isFault(first)) return first;
  const second = read(text, b!);
  return isFault(second) ? second : make(first, second);
}
