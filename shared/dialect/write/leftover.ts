/** What only the base says: modes, outputs, elements and numbers are unset or go, other settings stay; and what is unset anew. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf } from "../../model/craft.ts";
import { decodeSlot, encodeSlot, textOfHeld } from "../codes/codes.ts";
import { heldOfOurs } from "../codes/held.ts";
import type { Dialect, Held, Left, Ref, Slot } from "../dialect.ts";
import { exact } from "../exact.ts";
import { refsOf } from "../file/link-facts.ts";
import { matchPattern } from "../patterns/match.ts";
import { nameOf, saidOf } from "../read/sayings.ts";
import { beforeNumber, isFree, namesSaid, type Row, rowsOf } from "./draft.ts";
import { beforeOf, gather, namingSlots, numberAt, numbersHeld, type Place, type Plan, placeOf } from "./plan.ts";
import type { Report } from "./report.ts";
import type { Helds } from "./spell.ts";
import type { Want } from "./wanted.ts";

const UNSET: Held = { kind: "unset" };

/** Deals with every line of the base that says something which nobody wants, or which another line says now. */
export function clearLeftover(plan: Plan, report: Report, catalogue: Catalogue): void {
  const { draft } = plan;
  const only = new Set<string>();
  for (const row of rowsOf(draft)) {
    const names = namesSaid(row);
    if (names.length === 0) continue;
    if (plan.edits.hasRow(row)) {
      for (const name of names) if (!plan.wanted.has(name) && !mustGo(row, name, catalogue)) only.add(name);
      continue;
    }
    const stale = names.filter((name) => !plan.wanted.has(name) || (plan.rewritten.has(name) && !plan.kept.has(row)));
    if (stale.length === 0) continue;
    const cleared = stale.filter((name) => plan.rewritten.has(name) || mustGo(row, name, catalogue));
    for (const name of stale) if (!cleared.includes(name) && !plan.wanted.has(name)) only.add(name);
    if (cleared.length === 0) continue;
    if (cleared.length < names.length) {
      report.byHand.push(...cleared.map((name) => `${name}: “${row.text.trim()}” says more than that`));
      continue;
    }
    const helds = unsetHelds(row);
    if (helds && row.parse.kind === "fits") {
      const place: Place = { heading: row.block.heading?.text ?? null, scope: row.block.scope, block: row.block };
      gather(plan, row.parse.left, row, place, helds, [], true);
      continue;
    }
    if (unsetByAnother(plan, row, cleared)) continue;
    row.status = "gone";
    report.byHand.push(`${[...new Set(cleared)].join(", ")}: “${row.text.trim()}”`);
  }
  report.onlyBase.push(...only);
}

/** Modes, outputs, elements and numbered things do not stay where the craft does not say them. */
function mustGo(row: Row, name: string, catalogue: Catalogue): boolean {
  const [section = "", own = ""] = name.split(" ");
  const spec = catalogue.section(baseOf(section));
  if (spec?.holds === "modes" || spec?.holds === "outputs" || spec?.holds === "follows") return true;
  if (spec?.holds === "places" && catalogue.element(own)) return true;
  return row.sayings.some((saying) => {
    const said = saidOf(saying);
    return said !== null && nameOf(said) === name && saying.item !== null;
  });
}

/** What the slots of a line hold so that it says that nothing is set, all others as they are usually; null where it cannot. */
function unsetHelds(row: Row): Map<string, Held> | null {
  if (row.parse.kind !== "fits") return null;
  const { left, slots } = row.parse;
  const number = slots.get("#");
  const helds = unsetLine(left, number ? new Map([["#", number.held]]) : new Map(), row);
  return helds;
}

/** Says by another line of the dialect that nothing is set, in place of this one; false where none says it. */
function unsetByAnother(plan: Plan, row: Row, names: readonly string[]): boolean {
  if (row.parse.kind !== "fits") return false;
  const { left, slots } = row.parse;
  const number = slots.get("#");
  const before = beforeNumber(left, (slot) => slots.get(slot)?.text ?? null);
  for (const other of plan.draft.dialect.lefts) {
    const isUnset = other.meanings.every(({ right, lefts }) => right.value.kind === "unset" && lefts.length === 1);
    if (!isUnset || other.under !== left.under || other.pattern.slots.has("#") !== (number !== undefined)) continue;
    const given = new Map<string, Held>(number ? [["#", number.held]] : []);
    // What names the entry in both lines is the same, as is the text before a number.
    for (const slot of new Set(other.meanings.flatMap(namingSlots))) {
      const own = slots.get(slot);
      if (own) given.set(slot, own.held);
    }
    const helds = unsetLine(other, given, null);
    if (!helds || (number && beforeOf(other, helds) !== before)) continue;
    const said = other.meanings.map(({ section, right }) => {
      const name = right.name.map((part) =>
        typeof part === "string" ? part : textOfHeld(given.get(part.slot) ?? UNSET),
      );
      return right.name.length === 0 ? null : `${section} ${name.join("")}`;
    });
    if (!number && !names.every((name) => said.includes(name))) continue;
    const place: Place = { heading: row.block.heading?.text ?? null, scope: row.block.scope, block: row.block };
    return gather(plan, other, row, place, helds, [], true);
  }
  return false;
}

/** A line that unsets: the slots that can, unset; what names it, as given; the rest as the default says. */
function unsetLine({ pattern, meanings }: Left, given: Helds, row: Row | null): Map<string, Held> | null {
  const naming = new Set(meanings.flatMap(namingSlots));
  const values = new Set(meanings.flatMap(({ right, title }) => refsOf(right, title)).map(({ slot }: Ref) => slot));
  const helds = new Map(given);
  const isAlways = meanings.some(({ right }) => right.value.kind === "unset");
  let isUnset = isAlways;
  // Where the value itself can be unset, the name stays; else the name is.
  for (const pass of ["values", "names"] as const) {
    if (isUnset && pass === "names") break;
    for (const slot of pattern.slots.values()) {
      if (helds.has(slot.name) || !values.has(slot.name) || naming.has(slot.name) !== (pass === "names")) continue;
      if (!canUnset(slot)) continue;
      helds.set(slot.name, UNSET);
      isUnset = true;
    }
  }
  if (!isUnset) return null;
  for (const slot of pattern.slots.values()) {
    if (helds.has(slot.name)) continue;
    const own = row?.parse.kind === "fits" ? row.parse.slots.get(slot.name)?.held : undefined;
    const usual = slot.default === null ? null : decodeSlot(slot, slot.default);
    if (naming.has(slot.name) && own) helds.set(slot.name, own);
    else if (usual && usual.kind !== "bad") helds.set(slot.name, usual);
    else if (own) helds.set(slot.name, own);
    else return null;
  }
  return helds;
}

function canUnset(slot: Slot): boolean {
  return encodeSlot(slot, UNSET).kind === "spelled";
}

/** Where there is no last text of the board, all that can be is unset, in the sections of which the craft says something. */
export function unsetTheRest(plan: Plan, wants: readonly Want[]): void {
  const sections = new Set(wants.map(({ spec }) => spec.name));
  const done = new Set<string>();
  for (const left of plan.draft.dialect.lefts) {
    if (
      left.meanings.some(({ lefts }) => lefts.length > 1) ||
      !left.meanings.some(({ section }) => sections.has(section))
    )
      continue;
    const place = placeOf(plan, left, new Map());
    if (
      typeof place === "string" ||
      (place.heading !== null &&
        place.block === null &&
        !plan.edits.some((edit) => edit.place.heading === place.heading))
    )
      continue;
    if (left.pattern.slots.has("#")) unsetNumbers(plan, left, place);
    else unsetNames(plan, left, place, done);
  }
}

function unsetNumbers(plan: Plan, left: Left, place: Place): void {
  const bounds = left.pattern.slots.get("#")!.whole!;
  const first = unsetLine(left, new Map([["#", numberHeld(bounds.from)]]), null);
  const before = first && beforeOf(left, first);
  if (before === null) return;
  const held = numbersHeld(plan, left, place, before);
  const free = new Set([...rowsOf(plan.draft)].flatMap((row) => (isFree(row) ? [String(numberAt(row, before))] : [])));
  for (let number = bounds.from; number <= bounds.to; number++) {
    if (held.has(number) || free.has(String(number)) || isUnsetBy(plan, left, number)) continue;
    const helds = unsetLine(left, new Map([["#", numberHeld(number)]]), null);
    if (helds) gather(plan, left, null, place, helds, [], true);
  }
}

function isUnsetBy({ edits }: Plan, left: Left, number: number): boolean {
  return edits.some((edit) => {
    const own = edit.helds.get("#");
    return (
      edit.isUnset &&
      beforeOf(edit.left, edit.helds) === beforeOf(left, edit.helds) &&
      own?.kind === "number" &&
      own.number.over === BigInt(number)
    );
  });
}

function numberHeld(number: number): Held {
  return { kind: "number", number: exact(BigInt(number)), unit: "" };
}

/** Every name that the words of a naming slot know, and that nobody wants; or the line itself, where it has no such slot. */
function unsetNames(plan: Plan, left: Left, place: Place, done: Set<string>): void {
  const naming = [...new Set(left.meanings.flatMap(namingSlots))].filter((slot) => left.pattern.slots.has(slot));
  const [only] = naming;
  if (naming.length > 1) return;
  const code = only === undefined ? null : left.pattern.slots.get(only)!.code;
  const words =
    only === undefined ? [null] : code?.kind === "words" ? code.words.flatMap(({ ours }) => ours ?? []) : [];
  for (const word of words) {
    const given: Helds = word === null || only === undefined ? new Map() : new Map([[only, heldOfOurs(word)]]);
    const names = namesWith(left, only, word);
    if (names.some((name) => plan.wanted.has(name) || done.has(name) || plan.draft.said.has(name))) continue;
    // Also odd lines hold their names.
    const isThere = [...rowsOf(plan.draft)].some(
      (row) =>
        (row.parse.kind === "fits" || row.parse.kind === "misfit") &&
        row.parse.left === left &&
        (only === undefined || sameWord(row, left, only, word, plan.draft.dialect)),
    );
    if (isThere || plan.edits.some((edit) => edit.left === left && only === undefined)) continue;
    const helds = unsetLine(left, given, null);
    if (!helds) continue;
    gather(plan, left, null, place, helds, [], true);
    for (const name of names) done.add(name);
  }
}

function sameWord({ text }: Row, { pattern }: Left, name: string, word: string | null, dialect: Dialect): boolean {
  const slot = pattern.slots.get(name);
  const raw = matchPattern(pattern, text, dialect.text.blanks)?.slots.get(name)?.text;
  const held = slot && raw !== undefined ? decodeSlot(slot, raw) : null;
  return held !== null && held.kind !== "bad" && held.kind !== "unset" && textOfHeld(held) === word;
}

function namesWith(left: Left, slot: string | undefined, word: string | null): string[] {
  return left.meanings.map(({ section, right }) => {
    const name = right.name
      .map((part) => (typeof part === "string" ? part : part.slot === slot ? (word ?? "") : ""))
      .join("");
    return `${section} ${name}`;
  });
}
