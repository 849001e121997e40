/** Which lines are to say what: each line is gathered once, with all that it is to hold, and written at the end. */
import { encodeSlot } from "../codes/codes.ts";
import { bareText, sameHeld, textOfHeld } from "../codes/held.ts";
import type { Held, Left, Meaning, Pattern } from "../dialect.ts";
import { fillPattern } from "../patterns/fill.ts";
import type { LineParse, Scope } from "../read/line-reader.ts";
import { nameOf, saidOf } from "../read/sayings.ts";
import {
  type Block,
  beforeNumber,
  type Draft,
  heldIn,
  isFree,
  namesSaid,
  type Row,
  rowsOf,
  saysHeld,
} from "./draft.ts";
import { rowsNaming, rowsOfLeft } from "./row-index.ts";
import { type Helds, togetherHeld } from "./spell.ts";
import type { Want } from "./wanted.ts";

/** A line that is to be changed, or made. */
export interface Edit {
  readonly left: Left;
  readonly row: Row | null;
  /** Where a new line goes. */
  readonly place: Place;
  helds: Helds;
  /** What it says, and what of it nobody says. */
  readonly says: {
    readonly want: Want;
    readonly open: readonly { readonly field: string; readonly slots: readonly string[] }[];
  }[];
  /** It says that nothing is set. */
  readonly isUnset: boolean;
}

/** Below which heading. */
export interface Place {
  /** The heading's line; null above all headings, or anywhere. */
  readonly heading: string | null;
  readonly scope: Scope;
  readonly block: Block | null;
}

export interface Plan {
  readonly draft: Draft;
  readonly edits: Edits;
  /** The names that the craft wants, as `nameOf` gives them. */
  readonly wanted: ReadonlySet<string>;
  /** The numbers given to items, by `SECTION NAME` and which of them. */
  readonly numbers: Map<string, number>;
  /** The names of which several lines may say something, and whose lines were gathered anew. */
  readonly rewritten: Set<string>;
  /** Lines of those that stay as they are. */
  readonly kept: Set<Row>;
}

/** The lines that are gathered, in order, and by the row that changes or by what tells a new line apart. */
export class Edits implements Iterable<Edit> {
  private readonly all: Edit[] = [];
  private readonly keyed = new Map<Row | string, Edit[]>();

  [Symbol.iterator](): Iterator<Edit> {
    return this.all[Symbol.iterator]();
  }

  by(key: Row | string): readonly Edit[] {
    return this.keyed.get(key) ?? [];
  }

  hasRow(row: Row): boolean {
    return this.keyed.has(row);
  }

  add(key: Row | string, edit: Edit): void {
    this.all.push(edit);
    const keyed = this.keyed.get(key);
    if (keyed) keyed.push(edit);
    else this.keyed.set(key, [edit]);
  }

  some(fits: (edit: Edit) => boolean): boolean {
    return this.all.some(fits);
  }
}

/** New lines with equal keys may be one. */
function identityKey(left: Left, place: Place, helds: Helds): string {
  const ids = identityOf(left).map((slot) => {
    const held = helds.get(slot);
    return held ? bareText(held) : "";
  });
  return `${left.pattern.key}\n${place.scope.heading}\n${ids.join("\n")}`;
}

/** The place of a left side, given what its heading's slots hold; a reason where the heading cannot be spelled. */
export function placeOf({ draft }: Plan, { under }: Left, helds: Helds): Place | string {
  const top: Place = { heading: null, scope: draft.blocks[0]!.scope, block: draft.blocks[0]! };
  if (under.kind !== "heading") return top;
  const texts = new Map<string, string>();
  for (const slot of under.pattern.slots.values()) {
    const held = helds.get(slot.name);
    if (!held) {
      if (slot.default === null) return `nobody says what {${slot.name}} of “${under.pattern.key}” is`;
      continue;
    }
    const spelled = encodeSlot(slot, held);
    if (spelled.kind === "cannot") return spelled.why;
    texts.set(slot.name, spelled.text);
  }
  const block = draft.blocks.findLast((each) => isHeadingFor(each, under.pattern, helds));
  if (block) return { heading: block.heading!.text, scope: block.scope, block };
  const heading = fillPattern(under.pattern, texts);
  const parse: LineParse = draft.reader.read(heading, top.scope);
  if (parse.kind !== "heading") return `“${heading}” would not be read as a heading`;
  return { heading, scope: parse.below, block: null };
}

function isHeadingFor({ heading }: Block, pattern: Pattern, helds: Helds): boolean {
  if (heading?.parse.kind !== "heading" || !heading.parse.by.includes(pattern.at.line)) return false;
  const { slots } = heading.parse;
  return [...pattern.slots.values()].every((slot) => {
    const own = slots.get(slot.name);
    const held = helds.get(slot.name);
    return own !== undefined && (held === undefined ? own.text === slot.default : saysHeld(slot, own.text, held));
  });
}

/** Gathers what a line is to hold: with what others want of the same line. False where they disagree. */
export function gather(
  plan: Plan,
  left: Left,
  row: Row | null,
  place: Place,
  helds: Helds,
  says: Edit["says"],
  isUnset = false,
): boolean {
  const own = new Map([...helds].filter(([slot]) => left.pattern.slots.has(slot)));
  const key = row ?? identityKey(left, place, own);
  const before = plan.edits
    .by(key)
    .find((edit) =>
      row
        ? edit.row === row
        : edit.row === null &&
          edit.left === left &&
          edit.place.scope.heading === place.scope.heading &&
          isSameLine(left, edit.helds, own),
    );
  if (!before) {
    plan.edits.add(key, { left, row, place, helds: own, says: [...says], isUnset });
    return true;
  }
  const together = togetherHeld(before.helds, own, sameHeld);
  if (!together) return false;
  before.helds = together;
  before.says.push(...says);
  return true;
}

/** Two new lines are one where all that tells lines of this kind apart is equal. */
function isSameLine(left: Left, a: Helds, b: Helds): boolean {
  return identityOf(left).every((slot) => {
    const [x, y] = [a.get(slot), b.get(slot)];
    return x !== undefined && y !== undefined ? sameOrUnset(x, y) : x === y;
  });
}

function sameOrUnset(a: Held, b: Held): boolean {
  return a.kind === "unset" || b.kind === "unset" ? a.kind === b.kind : sameHeld(a, b);
}

const identities = new WeakMap<Left, readonly string[]>();

/** The slots of a left side that tell its lines apart: its number, those that make names, those that tie several lines. */
export function identityOf(left: Left): readonly string[] {
  let slots = identities.get(left);
  if (!slots) {
    const found = new Set<string>();
    for (const meaning of left.meanings)
      for (const slot of namingSlots(meaning)) if (left.pattern.slots.has(slot)) found.add(slot);
    if (left.pattern.slots.has("#")) {
      // What a numbered line is about may change: its number stays.
      found.clear();
      found.add("#");
    }
    slots = [...found];
    identities.set(left, slots);
  }
  return slots;
}

/** The slots that make a name, a title, the name of a field, and those that tie several lines. */
export function namingSlots({ right, title, lefts }: Meaning): string[] {
  const fields = right.value.kind === "fields" ? right.value.fields.flatMap(({ name }) => name) : [];
  const named = [...right.name, ...(title ?? []), ...fields].flatMap((part) =>
    typeof part === "string" ? [] : [part.slot],
  );
  const [first, ...others] = lefts;
  const tied =
    others.length === 0
      ? []
      : [...first!.pattern.slots.keys()].filter((slot) => others.every(({ pattern }) => pattern.slots.has(slot)));
  return [...named, ...tied];
}

/** The lines of the base that say a name with a left side, or with any where `left` is null; in order. */
export function rowsSaying(draft: Draft, name: string, left: Left | null): Row[] {
  return rowsNaming(draft, name).filter(({ parse }) => left === null || (parse.kind === "fits" && parse.left === left));
}

/** The lines of each item of a name in the base, by number where they have one. */
export function itemGroups(draft: Draft, name: string): Row[][] {
  const groups = new Map<unknown, { rows: Row[]; number: number }>();
  for (const row of rowsSaying(draft, name, null)) {
    const saying = row.sayings.find((each) => {
      const said = saidOf(each);
      return said !== null && nameOf(said) === name;
    });
    const key = saying?.item ?? saying?.lines[0] ?? row;
    const group = groups.get(key);
    if (group) group.rows.push(row);
    else groups.set(key, { rows: [row], number: saying?.number ?? 0 });
  }
  return [...groups.values()].sort((a, b) => a.number - b.number).map(({ rows }) => rows);
}

/** The line of the base that is to change where a want is said by this left side; null for a new one. */
export function rowFor(plan: Plan, left: Left, want: Want, name: string, helds: Helds, place: Place): Row | null {
  const { draft } = plan;
  if (want.item !== null || left.pattern.slots.has("#")) {
    const rows = itemGroups(draft, name)[want.item ?? 0] ?? [];
    return rows.findLast(({ parse }) => parse.kind === "fits" && parse.left === left) ?? null;
  }
  const ids = identityOf(left);
  const fitting = rowsOfLeft(draft, left).filter(
    (row) =>
      (left.under.kind === "anywhere" || row.block.scope.heading === place.scope.heading) &&
      (row.sayings.length > 0 || left.meanings.some(({ lefts }) => lefts.length > 1)) &&
      ids.every((slot) => {
        const [own, held] = [heldIn(row, slot), helds.get(slot)];
        return own !== null && held !== undefined && sameOrUnset(own, held);
      }),
  );
  // Half of an entry is completed where no whole one is there.
  return fitting.findLast(({ sayings }) => sayings.length > 0) ?? fitting.at(-1) ?? null;
}

/** Whether a line holds its number: it says something that is wanted, or nobody knows what it says. */
function holdsNumber(row: Row, wanted: ReadonlySet<string>): boolean {
  if (row.parse.kind !== "fits" || row.sayings.length === 0) return true;
  return namesSaid(row).some((name) => wanted.has(name));
}

/** The numbers that lines with the same text before them hold, odd and unknown ones too. */
export function numbersHeld(plan: Plan, left: Left, place: Place, before: string): ReadonlySet<number> {
  const held = new Set<number>();
  for (const row of rowsOf(plan.draft)) {
    if (left.under.kind !== "anywhere" && row.block.scope.heading !== place.scope.heading) continue;
    const number = numberAt(row, before);
    if (number !== null && holdsNumber(row, plan.wanted)) held.add(number);
  }
  for (const edit of plan.edits) {
    const own = edit.helds.get("#");
    if (!own || edit.isUnset || edit.place.scope.heading !== place.scope.heading) continue;
    if (beforeOf(edit.left, edit.helds) === before) held.add(Number(textOfHeld(own)));
  }
  return held;
}

/** The number in a line that begins with this text, whatever the rest of it is. */
export function numberAt({ parse, text }: Row, before: string): number | null {
  if (parse.kind === "fits") {
    const own = beforeNumber(parse.left, (slot) => parse.slots.get(slot)?.text ?? null);
    return own === before ? Number(parse.slots.get("#")?.text) : null;
  }
  const match = numberedForm(before).exec(text);
  return match ? Number(match[1]) : null;
}

const forms = new Map<string, RegExp>();
/** As many forms as are remembered: a dialect has a few. */
const MOST_FORMS = 1000;

/** A line that begins with a text, with whatever blanks, and then has a number. */
function numberedForm(before: string): RegExp {
  let form = forms.get(before);
  if (!form) {
    const words = before
      .trimStart()
      .split(/[ \t]+/)
      .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
    form = new RegExp(`^[ \\t]*${words.join("[ \\t]+")}(\\d{1,6})(?!\\d)`);
    if (forms.size >= MOST_FORMS) forms.clear();
    forms.set(before, form);
  }
  return form;
}

/** The text before the number, once what it is made of is spelled; null where that is not known. */
export function beforeOf(left: Left, helds: Helds): string | null {
  return beforeNumber(left, (name) => {
    const slot = left.pattern.slots.get(name)!;
    const held = helds.get(name);
    const spelled = held && encodeSlot(slot, held);
    return spelled?.kind === "spelled" ? spelled.text : slot.default;
  });
}

/** The lowest number that is free, above another one where one is; null where none is. */
export function freeNumber(plan: Plan, left: Left, place: Place, helds: Helds, above = -1): number | null {
  const bounds = left.pattern.slots.get("#")?.whole;
  const before = beforeOf(left, helds);
  if (!bounds || before === null) return null;
  const held = numbersHeld(plan, left, place, before);
  let lowest: number | null = null;
  for (let number = bounds.from; number <= bounds.to; number++) {
    if (held.has(number)) continue;
    if (number > above) return number;
    lowest ??= number;
  }
  return lowest;
}

/** The line of the base with a number and a left side, which says nothing that is wanted; null without. */
export function freeRow(plan: Plan, left: Left, place: Place, helds: Helds, number: number): Row | null {
  const before = beforeOf(left, helds);
  const rows = [...rowsOf(plan.draft)].filter(
    (row) =>
      row.parse.kind === "fits" &&
      (row.parse.left === left || isFree(row)) &&
      (left.under.kind === "anywhere" || row.block.scope.heading === place.scope.heading) &&
      before !== null &&
      numberAt(row, before) === number &&
      !holdsNumber(row, plan.wanted) &&
      !plan.edits.hasRow(row),
  );
  return rows.findLast(({ parse }) => parse.kind === "fits" && parse.left === left) ?? rows.at(-1) ?? null;
}
