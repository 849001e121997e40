/** Lines that a board might write for a line of a dialect, with what they mean: found by trying, read by the dialect itself. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { encodeSlot, heldOfValue, splitSum } from "../../dialect/codes/codes.ts";
import { inUnit, numberIn } from "../../dialect/codes/held.ts";
import type { Dialect, Held, Left, Meaning, Pattern, Ref, Template, ValueTemplate } from "../../dialect/dialect.ts";
import { fillPattern } from "../../dialect/patterns/fill.ts";
import { lineReadings } from "../../dialect/read/read-board.ts";
import { scriptReader } from "../../model/read-script.ts";
import type { Value } from "../../syntax/value.ts";
import { rawsOfSlot } from "./spellings.ts";

export interface BoardExample {
  /** Lines of board text; a heading above them where they need one. */
  readonly board: readonly string[];
  /** What they say, `SECTION NAME VALUE` each; empty where they say that nothing is set. */
  readonly says: readonly string[];
}

/** Each try reads a few lines, so that a hover takes no time. */
const MOST_TRIES = 40;

const known = new WeakMap<Meaning, { readonly example: BoardExample | null }>();

/** An example of a line of a dialect; null where none was found. Remembered with the dialect. */
export function exampleOf(dialect: Dialect, meaning: Meaning, catalogue: Catalogue): BoardExample | null {
  let found = known.get(meaning);
  if (!found) {
    found = { example: findExample(dialect, meaning, catalogue) };
    known.set(meaning, found);
  }
  return found.example;
}

function findExample(dialect: Dialect, meaning: Meaning, catalogue: Catalogue): BoardExample | null {
  const choices = choicesOf(meaning, catalogue);
  const wants = meaning.right.value.kind !== "unset";
  let silent: BoardExample | null = null;
  for (const chosen of combinations(choices)) {
    const board = boardLines(meaning, chosen);
    if (!board) return null;
    const lines = lineReadings(dialect, board.join("\n"), catalogue).slice(-meaning.lefts.length);
    if (!lines.every(({ state, by }) => state === "read" && by.includes(meaning.line))) continue;
    const says = [...new Set(lines.flatMap((line) => line.says))];
    if (says.length > 0 || !wants) return { board, says };
    silent ??= { board, says };
  }
  return silent;
}

/** Spellings for each slot, those of its heading too; first what the catalogue's own example needs. */
function choicesOf(meaning: Meaning, catalogue: Catalogue): Map<string, string[]> {
  const choices = new Map<string, string[]>();
  const high = highSlots(meaning.right.value);
  const beside = new Set(meaning.lefts.flatMap((left) => left.beside));
  for (const pattern of patternsOf(meaning))
    for (const [name, slot] of pattern.slots) {
      const raws = rawsOfSlot(slot, high.has(name));
      const usual = beside.has(name) ? slot.default : null;
      if (!choices.has(name)) choices.set(name, usual === null ? raws : [usual, ...raws]);
    }
  const together = new Set([meaning, ...meaning.lefts.flatMap((left) => left.meanings)]);
  const wanted = [...together].toReversed().flatMap((each) => [...wantedBy(each, choices, catalogue)]);
  for (const [slot, held] of wanted) {
    const spec = patternsOf(meaning)
      .map(({ slots }) => slots.get(slot))
      .find((each) => each !== undefined);
    const spelled = spec && encodeSlot(spec, held);
    if (spelled?.kind === "spelled") choices.set(slot, [spelled.text, ...(choices.get(slot) ?? [])]);
  }
  return choices;
}

function patternsOf({ lefts }: Meaning): Pattern[] {
  const [first] = lefts;
  return [...lefts.map(({ pattern }) => pattern), ...(first?.under.kind === "heading" ? [first.under.pattern] : [])];
}

/** All first choices, all second ones and so on; then each slot's further choices by themselves. */
function* combinations(choices: ReadonlyMap<string, readonly string[]>): Generator<ReadonlyMap<string, string>> {
  const most = Math.max(1, ...[...choices.values()].map((each) => each.length));
  const pick = (at: number, own: string | null, other: number) =>
    new Map([...choices].map(([name, all]) => [name, all[Math.min(name === own ? at : other, all.length - 1)] ?? ""]));
  let left = MOST_TRIES;
  for (let at = 0; at < most && left > 0; at++, left--) yield pick(at, null, at);
  for (const [name, all] of choices)
    for (let at = 1; at < all.length && left > 0; at++, left--) yield pick(at, name, 0);
}

function boardLines(meaning: Meaning, chosen: ReadonlyMap<string, string>): string[] | null {
  const lines = meaning.lefts.map(({ pattern }) => fillPattern(pattern, chosen));
  const [first] = meaning.lefts;
  return first ? [...headingAbove(first, chosen), ...lines] : null;
}

function headingAbove({ under }: Left, chosen: ReadonlyMap<string, string>): string[] {
  return under.kind === "heading" ? [fillPattern(under.pattern, chosen)] : [];
}

/** Slots at the upper end of a range, which must be above the lower one. */
function highSlots(value: ValueTemplate): ReadonlySet<string> {
  const slots = new Set<string>();
  const add = (ref: Ref | number) => {
    if (typeof ref === "object") slots.add(ref.slot);
  };
  if (value.kind === "condition" && value.shape.kind === "ranges") for (const { to } of value.shape.ranges) add(to);
  if ((value.kind === "range" || value.kind === "follows") && value.to.kind === "value") value.to.terms.forEach(add);
  if (value.kind === "fields")
    for (const field of value.fields)
      if (/^(end|full|ceiling)$/.test(textOf(field.name))) for (const slot of slotsOf(field.value)) slots.add(slot);
  return slots;
}

function slotsOf(value: ValueTemplate): string[] {
  return value.kind === "value" ? value.terms.map(({ slot }) => slot) : [];
}

function textOf(template: Template): string {
  return template.map((part) => (typeof part === "string" ? part : "")).join("");
}

/** What slots have to hold, so that the entry is the catalogue's example of its setting. */
function wantedBy(
  meaning: Meaning,
  choices: ReadonlyMap<string, readonly string[]>,
  catalogue: Catalogue,
): Map<string, Held> {
  const wanted = new Map<string, Held>();
  const { section, right } = meaning;
  const name = right.name
    .map((part) => (typeof part === "string" ? part : (choices.get(part.slot)?.[0] ?? "")))
    .join("");
  const settings = catalogue.settingsOf(section);
  const setting =
    settings.find((each) => each.name === name) ?? settings.find((each) => fitsName(right.name, each.name));
  const example = setting?.example ?? setting?.default;
  if (!setting || example === undefined) return wanted;
  const { entries } = scriptReader(catalogue).read(
    "example",
    `craft "A"\n\n${section}\n  ${setting.name}  ${example}\n`,
    true,
  );
  const value = entries[0]?.value;
  if (value) unify(right.value, value, wanted);
  if (value && right.value.kind === "value" && right.value.terms.length > 1)
    splitTerms(meaning, right.value.terms, value, wanted);
  return wanted;
}

/** A value in two parts, the one with the largest step first. */
function splitTerms(meaning: Meaning, terms: readonly Ref[], value: Value, wanted: Map<string, Held>): void {
  const slots = terms.map(({ slot }) => meaning.lefts.map(({ pattern }) => pattern.slots.get(slot)).find(Boolean));
  if (slots.some((slot) => slot === undefined)) return;
  const parts = splitSum(
    slots.filter((slot) => slot !== undefined),
    heldOfValue(value),
  );
  for (const [i, part] of (parts ?? []).entries()) wanted.set(terms[i]!.slot, part);
}

function fitsName(template: Template, name: string): boolean {
  const [first, last] = [template[0], template.at(-1)];
  return (typeof first !== "string" || name.startsWith(first)) && (typeof last !== "string" || name.endsWith(last));
}

function unify(template: ValueTemplate, value: Value, wanted: Map<string, Held>): void {
  if (template.kind === "value" && template.terms.length === 1) {
    const held = heldOfValue(value);
    const number = template.unit === "" ? null : numberIn(held);
    const bare = number && inUnit(number, template.unit);
    wanted.set(template.terms[0]!.slot, bare ? { kind: "number", number: bare, unit: "" } : held);
  } else if (template.kind === "text" && value.kind === "text") {
    const [only] = template.parts;
    if (template.parts.length === 1 && typeof only === "object")
      wanted.set(only.slot, { kind: "text", text: value.text });
  } else if (template.kind === "fields" && value.kind === "fields") {
    for (const field of template.fields) {
      const own = value.fields.find(({ name }) => name === textOf(field.name));
      if (own) unify(field.value, own.value, wanted);
    }
  } else if (template.kind === "range" && value.kind === "range") {
    unify(template.from, value.from, wanted);
    unify(template.to, value.to, wanted);
  }
}
