/** The value of an entry as text, made of the right side of a dialect's line and of what its slots hold. */
import type { SettingSpec } from "../../catalogue/specs.ts";
import { quote } from "../../syntax/scanner.ts";
import { sumOf, textOfHeld } from "../codes/codes.ts";
import type { Held, Ref, Template, ValueTemplate } from "../dialect.ts";

/** What the slots of a board line, of the heading above it and of the lines that belong to it hold. */
export interface HeldSlots {
  get(name: string): Held | undefined;
}

/** Texts of which the first that fits counts; `unset` where nothing is set; `bad` says why there is none. */
export type Made<T> =
  | { readonly kind: "made"; readonly made: T }
  | { readonly kind: "unset" }
  | { readonly kind: "bad"; readonly why: string };

const UNSET = { kind: "unset" } as const;

function made<T>(value: T): Made<T> {
  return { kind: "made", made: value };
}

/** What a slot, or a part of it, holds. */
export function heldOf(ref: Ref, slots: HeldSlots): Made<Held> {
  const whole = slots.get(ref.slot);
  if (!whole) return { kind: "bad", why: `nothing is known of {${ref.slot}}` };
  if (whole.kind === "unset") return UNSET;
  if (ref.part === null) return made(whole);
  const part = whole.kind === "parts" ? whole.parts.get(ref.part) : undefined;
  if (!part) return { kind: "bad", why: `{${ref.slot}} has no part “${ref.part}”` };
  return part.kind === "unset" ? UNSET : made(part);
}

/** Text with what its slots hold put in, without quotes. */
export function templateText(template: Template, slots: HeldSlots): Made<string> {
  let text = "";
  for (const part of template) {
    if (typeof part === "string") {
      text += part;
      continue;
    }
    const held = heldOf(part, slots);
    if (held.kind !== "made") return held;
    text += held.made.kind === "text" ? held.made.text : textOfHeld(held.made);
  }
  return made(text);
}

/**
 * The texts that a value may be, as a script writes it: a board writes text without quotes, so what has no code is tried
 * with and without them, first as the setting's first type wants it.
 */
export function valueTexts(
  value: ValueTemplate,
  slots: HeldSlots,
  setting: SettingSpec | null,
): Made<readonly string[]> {
  if (value.kind === "value" && value.terms.length === 1) {
    const held = heldOf(value.terms[0]!, slots);
    if (held.kind !== "made") return held;
    const plain = withUnit(held.made, value.unit);
    if (held.made.kind === "text") return made([plain, held.made.text]);
    if (held.made.kind !== "word" || value.unit !== "") return made([plain]);
    const quoted = quote(held.made.text);
    return made(setting?.types[0]?.is === "text" ? [quoted, plain] : [plain, quoted]);
  }
  const text = valueText(value, slots);
  return text.kind === "made" ? made([text.made]) : text;
}

/** A value that stands within another one, or that can be but one text. */
export function valueText(value: ValueTemplate, slots: HeldSlots): Made<string> {
  switch (value.kind) {
    case "constant":
      return made(value.text);
    case "value":
      return termsText(value.terms, value.unit, slots);
    case "text":
      return textIn(templateText(value.parts, slots));
    case "word":
      return templateText(value.parts, slots);
    case "fields":
      return joined(value.fields, " ", (field) => {
        const name = templateText(field.name, slots);
        const text = valueText(field.value, slots);
        if (name.kind !== "made") return name;
        return text.kind === "made" ? made(`${name.made} ${text.made}`) : text;
      });
    case "list":
      return joined(value.items, ", ", (item) => valueText(item, slots));
    case "order":
      return joined(value.items, " ", (item) => valueText(item, slots));
    case "cell":
      return both(value.column, ", ", value.row, slots);
    case "range":
      return both(value.from, " to ", value.to, slots);
    case "size":
      return both(value.columns, " x ", value.rows, slots);
    case "unset":
      return UNSET;
    case "condition":
    case "curve":
    case "follows":
      return { kind: "bad", why: "such a value stands alone in its line" };
  }
}

function textIn(text: Made<string>): Made<string> {
  return text.kind === "made" ? made(quote(text.made)) : text;
}

/** Items that are set, with something between; nothing is set where none of them is. */
function joined<T>(items: readonly T[], between: string, textOf: (item: T) => Made<string>): Made<string> {
  const texts: string[] = [];
  for (const item of items) {
    const text = textOf(item);
    if (text.kind === "bad") return text;
    if (text.kind === "made") texts.push(text.made);
  }
  return texts.length > 0 ? made(texts.join(between)) : UNSET;
}

function both(a: ValueTemplate, between: string, b: ValueTemplate, slots: HeldSlots): Made<string> {
  const first = valueText(a, slots);
  if (first.kind !== "made") return first;
  const second = valueText(b, slots);
  return second.kind === "made" ? made(`${first.made}${between}${second.made}`) : second;
}

function termsText(terms: readonly Ref[], unit: string, slots: HeldSlots): Made<string> {
  const helds: Held[] = [];
  for (const term of terms) {
    const held = heldOf(term, slots);
    if (held.kind !== "made") return held;
    helds.push(held.made);
  }
  if (helds.length === 1) return made(withUnit(helds[0]!, unit));
  const sum = sumOf(helds);
  return sum.kind === "bad" ? sum : made(withUnit(sum, unit));
}

function withUnit(held: Held, unit: string): string {
  const text = textOfHeld(held);
  const hasUnit = held.kind === "number" && held.unit !== "";
  return unit === "" || hasUnit ? text : `${text} ${unit}`;
}
