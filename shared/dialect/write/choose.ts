/** Chooses by which lines of the dialect a craft's entry is said: exactly before rounded, the base's line before others. */
import { textOfHeld } from "../codes/codes.ts";
import { boardCurveOf } from "../curves/board-curve.ts";
import { type CurveSlot, curveSlotOf } from "../curves/curve-slots.ts";
import { slotsOfFormula } from "../curves/slots-of-formula.ts";
import type { Held, Left } from "../dialect.ts";
import { exact } from "../exact.ts";
import { isFigure } from "../read/entries.ts";
import { addsUpIn, namesSaid, type Row } from "./draft.ts";
import { freeNumber, freeRow, gather, itemGroups, type Place, type Plan, placeOf, rowFor, rowsSaying } from "./plan.ts";
import { cannotSay, type Report } from "./report.ts";
import { type Helds, heldsOf, spellSlots } from "./spell.ts";
import { isNamed, slotOfMeaning, type Unified, unify } from "./unify.ts";
import { FIGURE_PARTS, type Figure, type Want } from "./wanted.ts";

interface Choice {
  readonly unified: Unified;
  readonly helds: Map<string, Held>;
  readonly lines: readonly { readonly left: Left; readonly row: Row | null; readonly place: Place }[];
  readonly isRounded: boolean;
  readonly isInBase: boolean;
  readonly curveDeviationDegS: number | null;
}

/** What knows of figures: the craft's own, by section. */
export type FigureOf = (want: Want, name: "divider-ratio" | "shunt-scale") => Figure | null;

/** Gathers the lines for an entry, or reports why there are none. */
export function chooseFor(plan: Plan, want: Want, report: Report, figureOf: FigureOf): void {
  const { dialect } = plan.draft;
  const reasons: string[] = [];
  const choices: Choice[] = [];
  for (const meaning of dialect.meanings) {
    const found = figureUnified(meaning, want, figureOf) ?? (isNamed(meaning, want) ? unify(meaning, want) : []);
    for (const unified of found) {
      const choice = choiceOf(plan, unified, want);
      if (typeof choice === "string") reasons.push(choice);
      else choices.push(choice);
    }
  }
  const taken = pick(choices, fieldsOf(want));
  if (taken.length === 0) {
    if (isExcused(plan, want)) return;
    const isSayable = dialect.meanings.some((each) => each.right.value.kind !== "unset" && isNamed(each, want));
    const why =
      reasons[0] ?? figureHalf(dialect.meanings, want) ?? (isSayable ? `none of its lines can say ${want.rest}` : null);
    if (why !== null) cannotSay(report, want.what, why);
    else report.unsaid.push(want.what);
    return;
  }
  const covered = new Set(taken.flatMap(({ unified }) => unified.covers ?? fieldsOf(want)));
  for (const field of fieldsOf(want)) if (!covered.has(field)) report.unsaid.push(`${want.what} ${field}`);
  for (const choice of taken) take(plan, choice, want, report);
  leaveOthers(plan, want, taken);
}

function fieldsOf({ content }: Want): readonly string[] {
  return content.kind === "value" && content.value.kind === "fields"
    ? content.value.fields.map(({ name }) => name)
    : [];
}

/** `cannot all`, or `cannot` with this name. */
export function isExcused({ draft }: Plan, { spec, name }: Pick<Want, "spec" | "name">): boolean {
  return draft.dialect.cannot.some(
    ({ section, names }) => section === spec.name && (names === null || names.includes(name)),
  );
}

/** A ratio, or a scale, in place of the setting that it is read as. */
function figureUnified(meaning: Unified["meaning"], want: Want, figureOf: FigureOf): readonly Unified[] | null {
  const [name] = meaning.right.name;
  if (typeof name !== "string" || !isFigure(name) || meaning.right.name.length !== 1) return null;
  const { value } = meaning.right;
  if (meaning.section !== want.spec.name || !FIGURE_PARTS[name].includes(want.name) || value.kind !== "value")
    return [];
  const figure = figureOf(want, name);
  if (!figure) return [];
  const shares = [{ refs: value.terms, held: { kind: "number", number: figure.figure, unit: figure.unit } as const }];
  return [{ meaning, shares, covers: null, filled: [], unsaid: [] }];
}

/** Why half of a figure is not written; null where the board keeps no such figure. */
function figureHalf(meanings: readonly Unified["meaning"][], want: Want): string | null {
  for (const { section, right } of meanings) {
    const [name] = right.name;
    if (section !== want.spec.name || typeof name !== "string" || !isFigure(name)) continue;
    const parts = FIGURE_PARTS[name];
    if (parts.includes(want.name))
      return `the board keeps it as ${name}, of which ${parts.find((each) => each !== want.name)} is not said`;
  }
  return null;
}

/** How a right side would say it, line by line; a reason where it cannot. */
function choiceOf(plan: Plan, unified: Unified, want: Want): Choice | string {
  const { meaning } = unified;
  const helds = heldsOf(unified.shares, slotOfMeaning(meaning));
  if (typeof helds === "string") return helds;
  const curve = meaning.right.value.kind === "curve" ? curveHelds(plan, unified, want, helds) : null;
  if (typeof curve === "string") return curve;
  const lines: { left: Left; row: Row | null; place: Place }[] = [];
  let [isRounded, isInBase] = [false, true];
  for (const left of meaning.lefts) {
    const place = placeOf(plan, left, helds);
    if (typeof place === "string") return place;
    const row = rowFor(plan, left, want, `${want.section} ${want.name}`, helds, place);
    const spelled = spellSlots(left, helds, row);
    if (spelled.kind === "cannot") return spelled.why;
    isRounded ||= spelled.isRounded;
    isInBase &&= row !== null;
    lines.push({ left, row, place });
  }
  return { unified, helds, lines, isRounded, isInBase, curveDeviationDegS: curve?.deviationDegS ?? null };
}

/** The numbers of a board's curve that come nearest to the craft's. */
function curveHelds(
  plan: Plan,
  { meaning }: Unified,
  want: Want,
  helds: Map<string, Held>,
): { deviationDegS: number } | string {
  const { value } = meaning.right;
  if (value.kind !== "curve" || want.content.kind !== "value" || want.content.value.kind !== "fields")
    return "it is no curve";
  const numbers = new Map<string, number>();
  for (const field of want.content.value.fields)
    if (field.value.kind === "quantity" || field.value.kind === "integer") numbers.set(field.name, field.value.number);
  const [slope, end] = [numbers.get("slope"), numbers.get("end")];
  if (slope === undefined || end === undefined) return "its slope or its end is not said";
  const [left] = meaning.lefts;
  const row = [...rowsSaying(plan.draft, `${want.section} ${want.name}`, left ?? null)].at(-1) ?? null;
  const slots: CurveSlot[] = [];
  for (const name of slotsOfFormula(value.formula)) {
    const slot = left!.pattern.slots.get(name);
    if (!slot) return `{${name}} does not stand in the line`;
    const raw = row?.parse.kind === "fits" ? (row.parse.slots.get(name)?.text ?? null) : null;
    const made = curveSlotOf(slot, raw);
    if ("why" in made) return made.why;
    slots.push(made);
  }
  const bend = numbers.get("bend") ?? (slope === end ? 1 : USUAL_BEND);
  const fitted = boardCurveOf(value.formula, slots, { slopeDegS: slope, endDegS: end, bend });
  if ("why" in fitted) return fitted.why;
  for (const [name, held] of fitted.values) helds.set(name, held);
  return { deviationDegS: fitted.deviationDegS };
}

/** Default of the field `bend`. */
const USUAL_BEND = 3;

/** The best choice that says all of it; else those that say it field by field. */
function pick(choices: readonly Choice[], fields: readonly string[]): readonly Choice[] {
  const rank = ({ isRounded, isInBase, unified }: Choice) => [
    isRounded ? 1 : 0,
    isInBase ? 0 : 1,
    unified.unsaid.length > 0 ? 1 : 0,
  ];
  const sorted = choices
    .map((choice, i) => ({ choice, rank: [...rank(choice), i] }))
    .sort((a, b) => compareRanks(a.rank, b.rank))
    .map(({ choice }) => choice);
  const whole = sorted.find(({ unified: { covers } }) => covers === null || covers.length === fields.length);
  if (whole) return [whole];
  const taken: Choice[] = [];
  const open = new Set(fields);
  for (const choice of sorted) {
    const covers = choice.unified.covers ?? [];
    if (!covers.some((field) => open.has(field))) continue;
    taken.push(choice);
    for (const field of covers) open.delete(field);
  }
  return taken;
}

function compareRanks(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((each, i) => each !== b[i]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}

function take(plan: Plan, { unified, helds, lines, curveDeviationDegS }: Choice, want: Want, report: Report): void {
  const isNumbered = unified.meaning.lefts.some(({ pattern }) => pattern.slots.has("#"));
  const own: Helds = isNumbered ? withNumber(plan, unified, want, helds, lines) : helds;
  if (isNumbered && !own.has("#")) {
    cannotSay(report, want.what, "every number that the board has for such a line is taken");
    return;
  }
  const open = unified.unsaid.map(({ field, refs }) => ({ field, slots: refs.map(({ slot }) => slot) }));
  for (const { left, row, place } of lines) {
    const number = own.get("#");
    const at =
      row ??
      (number && left.pattern.slots.has("#") ? freeRow(plan, left, place, own, Number(textOfHeld(number))) : null);
    const isGathered = gather(plan, left, at, place, own, [{ want, open }]);
    if (!isGathered) cannotSay(report, want.what, "the same line of the board has to say something else");
  }
  for (const { field, value } of unified.filled)
    report.filled.push({
      what: `${want.what} ${field}`,
      value,
      why: "the craft does not say it, and this is the usual value",
    });
  if (curveDeviationDegS !== null) report.curves.push({ what: want.what, deviationDegS: curveDeviationDegS });
}

/** With the number of the item: that of the base, else the lowest that is free. */
function withNumber(
  plan: Plan,
  { meaning }: Unified,
  want: Want,
  helds: Helds,
  lines: Choice["lines"],
): Map<string, Held> {
  const key = `${want.what} ${want.item ?? ""} ${meaning.section}`;
  const row = lines.find((each) => each.row !== null)?.row ?? rowOfItem(plan, want);
  const inBase = row?.parse.kind === "fits" ? row.parse.slots.get("#") : undefined;
  const [numbered] = lines.filter(({ left }) => left.pattern.slots.has("#"));
  const number =
    plan.numbers.get(key) ??
    (inBase ? Number(inBase.text) : freeNumber(plan, numbered!.left, numbered!.place, helds, lastNumber(plan, want)));
  const own = new Map(helds);
  if (number === null) return own;
  plan.numbers.set(key, number);
  own.set("#", { kind: "number", number: exact(BigInt(number)), unit: "" });
  return own;
}

/** The highest number of a repeatable setting so far, as its lines count up; -1 without one, and for all else. */
function lastNumber({ draft, numbers, kept }: Plan, { what, item, setting }: Want): number {
  if (item === null || setting?.repeatable !== true) return -1;
  const given = [...numbers].flatMap(([key, number]) => (key.startsWith(`${what} `) ? number : []));
  const inBase = itemGroups(draft, what).flatMap(([row]) =>
    row && kept.has(row) && row.parse.kind === "fits" ? Number(row.parse.slots.get("#")?.text ?? -1) : [],
  );
  return Math.max(-1, ...given, ...inBase);
}

/** A line of the base that says another field of the same item. */
function rowOfItem({ draft }: Plan, want: Want): Row | null {
  return itemGroups(draft, `${want.section} ${want.name}`)[want.item ?? 0]?.findLast(addsUpIn) ?? null;
}

/** Lines of the base that say the same by other left sides go, as the later one of the two would count. */
function leaveOthers(plan: Plan, want: Want, taken: readonly Choice[]): void {
  if (want.item !== null) return;
  const kept = new Set(taken.flatMap(({ lines }) => lines.map(({ left }) => left)));
  for (const row of rowsSaying(plan.draft, `${want.section} ${want.name}`, null)) {
    if (row.parse.kind !== "fits" || kept.has(row.parse.left) || addsUpIn(row)) continue;
    const isOnlyThis = namesSaid(row).every((name) => name === `${want.section} ${want.name}`);
    if (isOnlyThis && !plan.edits.hasRow(row)) row.status = "gone";
  }
}
