/** What the slots of a right side hold so that it says a value: the way of reading, gone back. */
import type { Value, ValueOf } from "../../syntax/value.ts";
import { encodeSlot } from "../codes/codes.ts";
import { CHANNEL, heldOfOurs, heldOfValue, inUnit, numberIn, sameHeld } from "../codes/held.ts";
import type { Held, Meaning, Ref, Slot, Template, ValueTemplate } from "../dialect.ts";
import { exact } from "../exact.ts";
import type { Content, Want } from "./wanted.ts";

/** A slot, or a part of one, with what it must hold; several that hold it together. */
export interface Share {
  readonly refs: readonly Ref[];
  readonly held: Held;
}

export interface Unified {
  readonly meaning: Meaning;
  readonly shares: readonly Share[];
  /** The fields that it says; null where it says the whole value. */
  readonly covers: readonly string[] | null;
  /** Fields that the craft does not say, of which the right side says the usual value. */
  readonly filled: readonly { readonly field: string; readonly value: string }[];
  /** Slots of fields that the craft does not say. */
  readonly unsaid: readonly { readonly field: string; readonly refs: readonly Ref[] }[];
}

export type SlotOf = (ref: Ref) => Slot | null;

/** The slot of a meaning, in one of its left sides or in the heading above them. */
export function slotOfMeaning({ lefts }: Meaning): SlotOf {
  return ({ slot: name }) => {
    for (const { pattern, under } of lefts) {
      const slot = pattern.slots.get(name) ?? (under.kind === "heading" ? under.pattern.slots.get(name) : undefined);
      if (slot) return slot;
    }
    return null;
  };
}

interface Gathered {
  readonly shares: Share[];
  readonly filled: { field: string; value: string }[];
  readonly unsaid: { field: string; refs: readonly Ref[] }[];
  covers: string[] | null;
}

/**
 * How a meaning says what is wanted, in one or, where it names one field at a time, several lines; none where it
 * cannot. Conditions and curves are left to who knows them: of those only the name is unified.
 */
export function unify(meaning: Meaning, want: Want): readonly Unified[] {
  const { right, title } = meaning;
  if (meaning.section !== want.spec.name || (title === null) !== (want.title === null)) return [];
  const gathered = (): Gathered => ({ shares: [], filled: [], unsaid: [], covers: null });
  const start = gathered();
  if (!template(start, right.name, want.name)) return [];
  if (title && !template(start, title, want.title ?? "")) return [];
  const { content } = want;
  const slotOf = slotOfMeaning(meaning);
  const one = fieldNamedBySlot(right.value);
  const values = content.kind === "value" && content.value.kind === "fields" ? content.value.fields : null;
  if (one && values) {
    return values.flatMap((field) => {
      const made = gathered();
      made.shares.push(...start.shares);
      made.covers = [field.name];
      const fits = template(made, one.name, field.name) && simple(made, one.value, field.value, slotOf);
      return fits ? finished(meaning, made) : [];
    });
  }
  return whole(start, right.value, content, want, slotOf) ? finished(meaning, start) : [];
}

/** Whether a right side is about this entry, whatever it says of it: its slots have a word for the name. */
export function isNamed(meaning: Meaning, want: Want): boolean {
  const { section, right, title } = meaning;
  const to: Gathered = { shares: [], filled: [], unsaid: [], covers: null };
  if (section !== want.spec.name || (title === null) !== (want.title === null) || right.name.length === 0) return false;
  if (!template(to, right.name, want.name) || (title && !template(to, title, want.title ?? ""))) return false;
  const slotOf = slotOfMeaning(meaning);
  return to.shares.every(({ refs: [ref], held }) => {
    const slot = ref && slotOf(ref);
    return !slot || ref.part !== null || encodeSlot(slot, held).kind === "spelled";
  });
}

function finished(meaning: Meaning, { shares, filled, unsaid, covers }: Gathered): Unified[] {
  const joined: Share[] = [];
  for (const share of shares) {
    const same = joined.find(({ refs }) => keyOf(refs) === keyOf(share.refs));
    if (same && !sameHeld(same.held, share.held)) return [];
    if (!same) joined.push(share);
  }
  return [{ meaning, shares: joined, covers, filled, unsaid }];
}

function keyOf(refs: readonly Ref[]): string {
  return refs.map(({ slot, part }) => `${slot}.${part ?? ""}`).join("+");
}

/** A right side with a single field that a slot names. */
function fieldNamedBySlot(value: ValueTemplate) {
  const [field] = value.kind === "fields" && value.fields.length === 1 ? value.fields : [];
  return field?.name.some((part) => typeof part !== "string") ? field : null;
}

function whole(to: Gathered, value: ValueTemplate, content: Content, want: Want, slotOf: SlotOf): boolean {
  switch (content.kind) {
    case "condition":
      return value.kind === "condition";
    case "cell":
      return (
        value.kind === "cell" &&
        axis(to, value.column, content.column, content.columnOf, slotOf) &&
        axis(to, value.row, content.row, content.rowOf, slotOf)
      );
    case "follows": {
      if (value.kind !== "follows") return false;
      const held = { kind: "number", number: exact(BigInt(content.channel)), unit: CHANNEL } as const;
      to.shares.push({ refs: [value.dial], held });
      return simple(to, value.from, content.value.from, slotOf) && simple(to, value.to, content.value.to, slotOf);
    }
    case "value":
      if (value.kind === "curve") return content.value.kind === "fields";
      if (value.kind === "fields")
        return content.value.kind === "fields" && fields(to, value, content.value, want, slotOf);
      return simple(to, value, content.value, slotOf);
  }
}

/** One axis of a place: a cell, or how far it is from an edge or the middle. */
function axis(
  to: Gathered,
  value: ValueTemplate,
  cell: number,
  anchorAt: (anchor: string) => number | null,
  slotOf: SlotOf,
): boolean {
  if (value.kind !== "word" && value.kind !== "constant") return simple(to, value, integer(cell), slotOf);
  const [head, ref] = value.kind === "word" ? value.parts : [value.text];
  const said = typeof head === "string" ? /^([a-z]+)?([+-]|[+-]?\d+)?$/.exec(head) : null;
  const from = said?.[1] === undefined ? 0 : anchorAt(said[1]);
  if (!said || from === null) return false;
  if (value.kind === "constant") return from + Number(said[2] ?? 0) === cell;
  const away = said[2] === "-" ? from - cell : cell - from;
  if (typeof ref !== "object" || value.parts.length !== 2 || away < 0) return false;
  to.shares.push({ refs: [ref], held: { kind: "number", number: exact(BigInt(away)), unit: "" } });
  return true;
}

function integer(number: number): Value {
  return { kind: "integer", number, start: 0, end: 0 };
}

/** A value without fields of its own. */
function simple(to: Gathered, value: ValueTemplate, said: Value, slotOf: SlotOf): boolean {
  switch (value.kind) {
    case "constant":
      return isConstant(value.text, said);
    case "value": {
      const held = heldFor(value, heldOfValue(said), slotOf);
      if (!held) return false;
      to.shares.push({ refs: value.terms, held });
      return true;
    }
    case "text":
      if (said.kind === "colour") return !said.named && template(to, value.parts, said.colour, "text");
      return said.kind === "text" && template(to, value.parts, said.text, "text");
    case "word": {
      const held = heldOfValue(said);
      return held.kind === "word" && template(to, value.parts, held.text);
    }
    case "range":
      return (
        said.kind === "range" && simple(to, value.from, said.from, slotOf) && simple(to, value.to, said.to, slotOf)
      );
    case "size":
      return (
        said.kind === "size" &&
        simple(to, value.columns, integer(said.columns), slotOf) &&
        simple(to, value.rows, integer(said.rows), slotOf)
      );
    case "list":
      return said.kind === "list" && each(to, value.items, said.items, slotOf);
    case "order": {
      if (said.kind !== "order") return false;
      const words = said.words.map((word): Value => ({ kind: "choice", word, start: 0, end: 0 }));
      return each(to, value.items, words, slotOf);
    }
    default:
      return false;
  }
}

function each(to: Gathered, items: readonly ValueTemplate[], said: readonly Value[], slotOf: SlotOf): boolean {
  if (said.length > items.length) return false;
  return items.every((item, i) => {
    const own = said[i];
    if (own) return simple(to, item, own, slotOf);
    // What is left of the line is unset.
    if (item.kind !== "value" || item.terms.length !== 1) return false;
    to.shares.push({ refs: item.terms, held: { kind: "unset" } });
    return true;
  });
}

/** Whether a constant says the same value, in whatever unit. */
function isConstant(text: string, said: Value): boolean {
  const held = heldOfValue(said);
  if (sameHeld(heldOfOurs(text), held)) return true;
  const items = text.split(/[ \t]*,[ \t]*|[ \t]+/);
  return (
    (held.kind === "list" || held.kind === "order") &&
    held.items.length === items.length &&
    held.items.every((item, i) => sameHeld(heldOfOurs(items[i]!), item))
  );
}

/**
 * What a slot holds of a value: where the unit stands on the right and the slot has none of its own, the bare number in
 * that unit. Null where the units do not go together.
 */
function heldFor({ terms, unit }: ValueTemplate & { kind: "value" }, held: Held, slotOf: SlotOf): Held | null {
  if (terms.some((term) => slotOf(term) === null)) return null;
  if (unit === "" || terms.some((term) => unitOfSlot(term, slotOf) !== "")) return held;
  const number = numberIn(held);
  const bare = number && inUnit(number, unit);
  return bare && { kind: "number", number: bare, unit: "" };
}

function unitOfSlot(ref: Ref, slotOf: SlotOf): string {
  const code = slotOf(ref)?.code;
  const own =
    ref.part !== null && code?.kind === "bits" ? code.parts.find(({ name }) => name === ref.part)?.code : code;
  return own?.kind === "number" ? own.unit : "";
}

/** The fields that stand on the right; those that the craft does not say are the usual value, or left open. */
function fields(
  to: Gathered,
  value: ValueTemplate & { kind: "fields" },
  said: ValueOf<"fields">,
  { setting }: Want,
  slotOf: SlotOf,
): boolean {
  const type = setting?.types.find((each) => each.is === "fields");
  to.covers = [];
  for (const { name, value: inner } of value.fields) {
    const [field] = name;
    if (typeof field !== "string" || name.length !== 1) return false;
    const own = said.fields.find((each) => each.name === field);
    if (own) {
      if (!simple(to, inner, own.value, slotOf)) return false;
      to.covers.push(field);
      continue;
    }
    const usual = type?.fields.find((each) => each.name === field)?.default;
    if (inner.kind === "constant") {
      if (usual === undefined || !sameHeld(heldOfOurs(inner.text), heldOfOurs(usual))) return false;
      to.filled.push({ field, value: usual });
    } else if (inner.kind === "value") to.unsaid.push({ field, refs: inner.terms });
    else return false;
  }
  return to.covers.length > 0;
}

/** A name, or text, that is made of text and slots: each slot ends where the text behind it next stands. */
function template(to: Gathered, parts: Template, said: string, kind: "word" | "text" = "word"): boolean {
  let at = 0;
  for (let i = 0; i < parts.length; i++) {
    const part = parts[i]!;
    if (typeof part === "string") {
      if (!said.startsWith(part, at)) return false;
      at += part.length;
      continue;
    }
    const behind = parts[i + 1];
    const end = typeof behind === "string" ? said.indexOf(behind, kind === "text" ? at : at + 1) : said.length;
    if (end < 0 || (end === at && kind === "word")) return false;
    to.shares.push({ refs: [part], held: { kind, text: said.slice(at, end) } });
    at = end;
  }
  return at === said.length;
}
