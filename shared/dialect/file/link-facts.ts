/** Makes left sides and meanings of facts: equal left sides become one, with all that they mean. */
import type { Cols } from "../../syntax/span.ts";
import { slotsOfFormula } from "../curves/slots-of-formula.ts";
import type { Code, Left, Meaning, Pattern, Ref, Right, Slot, Template, Under, ValueTemplate } from "../dialect.ts";
import type { NamedPattern, NamedSlot } from "../patterns/parse-pattern.ts";

/** A heading as one `under` names it. */
export type NamedUnder =
  | { readonly kind: "anywhere" | "above-all" }
  | { readonly kind: "heading"; readonly pattern: NamedPattern };

/** A line of the dialect that maps board text onto an entry. */
export interface Fact {
  readonly line: number;
  readonly section: string;
  readonly title: Template | null;
  readonly under: NamedUnder;
  readonly lefts: readonly NamedPattern[];
  readonly right: Right;
  /** The columns of the right side. */
  readonly at: Cols;
}

export interface Linked {
  readonly lefts: readonly Left[];
  readonly meanings: readonly Meaning[];
  readonly headings: readonly Pattern[];
  /** Slots whose code is not there, so that it is not known what they hold. */
  readonly unsure: ReadonlySet<Slot>;
}

/** A slot of a left side of which two lines say different things; `before` null for a number without bounds. */
export type ReportSlot = (slot: NamedSlot, line: number, before: string | null) => void;
/** Looks up a code for a slot; null where there is none, which is reported once. */
export type FindCode = (slot: NamedSlot, line: number) => Code | null;

type MutableLeft = Omit<Left, "meanings" | "beside"> & { meanings: Meaning[]; beside: string[] };

/** Links facts in file order; `headings` are those of the section `text`. */
export function linkFacts(
  facts: readonly Fact[],
  headings: readonly NamedPattern[],
  find: FindCode,
  report: ReportSlot,
): Linked {
  const slots = slotsByLeft(facts, report);
  const headingSlots = slotsByHeading(facts, headings, report);
  const unsure = new Set<Slot>();
  const make = (pattern: NamedPattern, drafts: ReadonlyMap<string, SlotDraft>) =>
    makePattern(pattern, drafts, find, unsure);
  const headingOf = (pattern: NamedPattern) => make(pattern, headingSlots.get(pattern.key)!);
  const unders = new Map<string, Under>();
  const lefts = new Map<string, MutableLeft>();
  const underOf = (named: NamedUnder): Under => {
    const key = keyOfUnder(named);
    const under: Under =
      unders.get(key) ??
      (named.kind === "heading" ? { kind: "heading", pattern: headingOf(named.pattern) } : { kind: named.kind });
    unders.set(key, under);
    return under;
  };
  const meanings = facts.map((fact): Meaning => {
    const own = fact.lefts.map((pattern): MutableLeft => {
      const key = keyOf(pattern, fact.under);
      const left = lefts.get(key) ?? {
        pattern: make(pattern, slots.get(key)!),
        under: underOf(fact.under),
        meanings: [],
        beside: [],
      };
      lefts.set(key, left);
      return left;
    });
    const { line, section, title, right, at } = fact;
    const meaning: Meaning = { line, section, title, lefts: own, right, at };
    for (const left of new Set(own)) left.meanings.push(meaning);
    return meaning;
  });
  const all = [...lefts.values()];
  for (const left of all) left.beside = besideOf(left);
  // Those under a heading are tried before those that count anywhere.
  return {
    lefts: [
      ...all.filter(({ under }) => under.kind !== "anywhere"),
      ...all.filter(({ under }) => under.kind === "anywhere"),
    ],
    meanings,
    headings: headings.map(headingOf),
    unsure,
  };
}

function keyOf(pattern: NamedPattern, under: NamedUnder): string {
  return `${keyOfUnder(under)}\n${pattern.key}`;
}

function keyOfUnder(under: NamedUnder): string {
  return under.kind === "heading" ? `under ${under.pattern.key}` : under.kind;
}

/** A slot as all facts with one left side say it together. */
type SlotDraft = NamedSlot & { readonly line: number };

/** The slots of each heading: a code or a default is said once, wherever the heading is named. */
function slotsByHeading(
  facts: readonly Fact[],
  headings: readonly NamedPattern[],
  report: ReportSlot,
): ReadonlyMap<string, Map<string, SlotDraft>> {
  const all = new Map<string, Map<string, SlotDraft>>();
  const seen = new Set<NamedPattern>();
  const add = (pattern: NamedPattern) => {
    if (seen.has(pattern)) return;
    seen.add(pattern);
    const own = all.get(pattern.key) ?? new Map<string, SlotDraft>();
    all.set(pattern.key, own);
    for (const slot of pattern.slots) join(own, slot, pattern.at.line, report);
  };
  headings.forEach(add);
  for (const { under } of facts) if (under.kind === "heading") add(under.pattern);
  return all;
}

/** A code or a default is said once, in any of the facts with an equal left side, or in another text of the same fact. */
function slotsByLeft(facts: readonly Fact[], report: ReportSlot): ReadonlyMap<string, Map<string, SlotDraft>> {
  const all = new Map<string, Map<string, SlotDraft>>();
  for (const fact of facts)
    for (const pattern of fact.lefts) {
      const key = keyOf(pattern, fact.under);
      const own = all.get(key) ?? new Map<string, SlotDraft>();
      all.set(key, own);
      for (const slot of pattern.slots) join(own, slot, pattern.at.line, report);
    }
  shareNumbers(facts, all, report);
  for (const { lefts, under } of facts) {
    if (lefts.length === 1) continue;
    const own = lefts.map((pattern) => all.get(keyOf(pattern, under))!);
    for (const slots of own)
      for (const [name, slot] of slots) {
        if (slot.code !== null || slot.whole !== null) continue;
        const said = own
          .map((each) => each.get(name))
          .find((each) => each && (each.code !== null || each.whole !== null));
        if (said) slots.set(name, { ...slot, code: said.code, whole: said.whole, at: said.at, line: said.line });
      }
  }
  return all;
}

/** Lines with the same text before their number share numbers, and so their bounds: once is enough. */
function shareNumbers(
  facts: readonly Fact[],
  all: ReadonlyMap<string, Map<string, SlotDraft>>,
  report: ReportSlot,
): void {
  const shared = new Map<string, SlotDraft>();
  const each = (visit: (slots: Map<string, SlotDraft>, slot: SlotDraft, before: string) => void) => {
    for (const { lefts, under } of facts)
      for (const pattern of lefts) {
        const slots = all.get(keyOf(pattern, under))!;
        const slot = slots.get("#");
        if (slot) visit(slots, slot, pattern.key.slice(0, pattern.key.indexOf("{#}")));
      }
  };
  each((_, slot, before) => {
    const known = shared.get(before);
    if (!slot.whole) return;
    if (known && howOf(known) !== howOf(slot) && slot.line !== known.line) report(slot, slot.line, howOf(known));
    if (!known) shared.set(before, slot);
  });
  const told = new Set<string>();
  each((slots, slot, before) => {
    const known = shared.get(before);
    if (!slot.whole && known) slots.set("#", { ...slot, whole: known.whole });
    else if (!slot.whole && !told.has(before)) {
      told.add(before);
      report(slot, slot.line, null);
    }
  });
}

function join(slots: Map<string, SlotDraft>, slot: NamedSlot, line: number, report: ReportSlot): void {
  const before = slots.get(slot.name);
  if (!before) {
    slots.set(slot.name, { ...slot, line });
    return;
  }
  const said = howOf(slot);
  const known = howOf(before);
  if (said !== "" && known !== "" && said !== known) report(slot, line, known);
  else if (slot.default !== null && before.default !== null && slot.default !== before.default)
    report(slot, line, `=${before.default}`);
  const takes = known === "" && said !== "";
  slots.set(slot.name, {
    ...(takes ? { ...slot, line } : before),
    default: before.default ?? slot.default,
  });
}

function howOf({ code, whole }: NamedSlot): string {
  return code ?? (whole ? `${whole.from} to ${whole.to}` : "");
}

function makePattern(
  pattern: NamedPattern,
  drafts: ReadonlyMap<string, SlotDraft>,
  find: FindCode,
  unsure: Set<Slot>,
): Pattern {
  const slots = new Map<string, Slot>();
  for (const draft of drafts.values()) {
    const { name, whole } = draft;
    const slot: Slot = {
      name,
      code: draft.code === null ? null : find(draft, draft.line),
      whole,
      default: draft.default,
    };
    slots.set(name, slot);
    if (draft.code !== null && slot.code === null) unsure.add(slot);
  }
  return { key: pattern.key, parts: pattern.parts, slots, at: pattern.at };
}

/** The slots, and the named bits of slots, that nothing on the right takes; the number is never one. */
function besideOf({ pattern, meanings }: MutableLeft): string[] {
  const taken = new Set<string>();
  for (const { right, title } of meanings)
    for (const { slot, part } of refsOf(right, title)) taken.add(part === null ? slot : `${slot}.${part}`);
  const beside: string[] = [];
  for (const [name, { code }] of pattern.slots) {
    if (name === "#" || taken.has(name)) continue;
    const parts = code?.kind === "bits" ? code.parts.map((part) => `${name}.${part.name}`) : [];
    if (parts.some((part) => taken.has(part))) beside.push(...parts.filter((part) => !taken.has(part)));
    else beside.push(name);
  }
  return beside;
}

/** Every slot that a right side takes, in order. */
export function refsOf(right: Right, title: Template | null): Ref[] {
  const found: Ref[] = [];
  const template = (parts: Template) => {
    for (const part of parts) if (typeof part !== "string") found.push(part);
  };
  const one = (ref: Ref | string | number) => {
    if (typeof ref === "object") found.push(ref);
  };
  const visit = (value: ValueTemplate): void => {
    switch (value.kind) {
      case "value":
        found.push(...value.terms);
        return;
      case "constant":
      case "unset":
        return;
      case "text":
      case "word":
        template(value.parts);
        return;
      case "fields":
        for (const field of value.fields) {
          template(field.name);
          visit(field.value);
        }
        return;
      case "cell":
        visit(value.column);
        visit(value.row);
        return;
      case "range":
        visit(value.from);
        visit(value.to);
        return;
      case "size":
        visit(value.columns);
        visit(value.rows);
        return;
      case "list":
      case "order":
        for (const item of value.items) visit(item);
        return;
      case "condition":
        if (value.shape.kind === "mode") one(value.shape.mode);
        else if (value.shape.kind === "ranges")
          for (const range of value.shape.ranges) [range.channel, range.from, range.to].forEach(one);
        return;
      case "curve":
        for (const slot of slotsOfFormula(value.formula)) found.push({ slot, part: null });
        return;
      case "follows":
        one(value.dial);
        visit(value.from);
        visit(value.to);
    }
  };
  if (title) template(title);
  template(right.name);
  visit(right.value);
  return found;
}
