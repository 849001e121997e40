/** What becomes of one statement that up to three texts have. */

import type { Unit } from "./document.ts";
import { mergeLines } from "./line-merge.ts";
import type { Match, Side } from "./match.ts";
import { adapted, isSameText, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";
import { type Parts, partsOf, written } from "./statement.ts";

export type Outcome =
  /** It stays, or comes: its note and its lines. */
  | { readonly kind: "stays"; readonly lead: readonly Row[]; readonly pieces: readonly Piece[] }
  | { readonly kind: "goes" }
  | { readonly kind: "clash"; readonly why: string };

/** Whether two statements say the same, however they are written; `a` and `b` have the same name. */
export type SameCore = (a: Unit, b: Unit) => boolean;

const GOES: Outcome = { kind: "goes" };

/** What becomes of a statement of the base, of ours and of theirs; null stands for a text that does not have it. */
export function outcomeOf(
  { base, ours, theirs }: Readonly<Record<Side, Unit | null>>,
  isSame: SameCore,
  style: Marks["style"],
): Outcome {
  if (ours && theirs) return both(base, ours, theirs, isSame, style);
  if (!base) return ours ? stays(ours.lead, ours) : stays(adapted(theirs!.lead), inTheirs(theirs!));
  const left = ours ?? theirs;
  if (!left || isUnchanged(base, left, isSame)) return GOES;
  return { kind: "clash", why: ours ? "changed by ours, removed by theirs" : "removed by ours, changed by theirs" };
}

export function unitsOf({ base, ours, theirs }: Match): Readonly<Record<Side, Unit | null>> {
  return { base: base?.unit ?? null, ours: ours?.unit ?? null, theirs: theirs?.unit ?? null };
}

/** True where a unit says what the other does, with the same note: at most its layout differs. */
export function isUnchanged(base: Unit, unit: Unit, isSame: SameCore): boolean {
  if (base.line === null || unit.line === null) return isSameText(base.rows, unit.rows);
  const [a, b] = [partsOf(base), partsOf(unit)];
  return isSame(base, unit) && a.comment === b.comment && isSameNote(a.note, b.note);
}

function both(base: Unit | null, ours: Unit, theirs: Unit, isSame: SameCore, style: Marks["style"]): Outcome {
  const lead = base && isSameText(base.lead, ours.lead) ? adapted(theirs.lead) : ours.lead;
  const isTheirs = base ? isSameUnit(base, ours) : false;
  if (isSameUnit(ours, theirs) || (base && isSameUnit(base, theirs))) return stays(lead, ours);
  if (isTheirs) return stays(lead, inTheirs(theirs));
  if (ours.line === null || theirs.line === null)
    return { kind: "stays", lead, pieces: mergeLines(base?.rows ?? [], ours.rows, adapted(theirs.rows), style) };

  if (ours.kind === "drop" && base) {
    const dropped = mergedDrops(base, ours, theirs);
    if (dropped) return dropped.length > 0 ? droppedIn(ours, dropped, lead) : GOES;
  }
  const parts = { base: base && partsOf(base), ours: partsOf(ours), theirs: partsOf(theirs) };
  const core = pick(base && isSame(base, ours), base && isSame(base, theirs), isSame(ours, theirs));
  if (core === null) return { kind: "clash", why: "changed in two ways" };
  const note = mergedNote(parts.base?.note ?? [], parts.ours.note, parts.theirs.note, style);
  const comment = pick(
    (parts.base?.comment ?? null) === parts.ours.comment,
    (parts.base?.comment ?? null) === parts.theirs.comment,
    parts.ours.comment === parts.theirs.comment,
  );
  if (note === null || comment === null) return { kind: "clash", why: "its note was changed in two ways" };
  const isChanged = base !== null && !isSame(base, core === "ours" ? ours : theirs);
  if (isChanged && isAcceptedOtherwise(parts.base!, parts, core)) return { kind: "clash", why: ACCEPTED };
  return stays(lead, {
    note,
    rows: [{ text: written({ base, ours, theirs }, core, comment), end: ours.rows[0]!.end }],
  });
}

/** The names that are dropped once both changed the list; null where one side drops all, or only one changed the list. */
function mergedDrops(base: Unit, ours: Unit, theirs: Unit): string[] | null {
  const [b, o, t] = [namesIn(base), namesIn(ours), namesIn(theirs)];
  if (!b || !o || !t || !isSameText(ours.note, theirs.note)) return null;
  const stay = o.filter((name) => t.includes(name) || !b.includes(name));
  return [...stay, ...t.filter((name) => !b.includes(name) && !o.includes(name))];
}

function namesIn({ line }: Unit): string[] | null {
  const node = line!.node;
  return node.kind === "drop" && node.all === null ? node.names.map(({ text }) => text) : null;
}

function droppedIn(ours: Unit, names: readonly string[], lead: readonly Row[]): Outcome {
  const { node, text } = ours.line!;
  if (node.kind !== "drop" || node.names.length === 0) return stays(lead, ours);
  const line = text.slice(0, node.names[0]!.start) + names.join(" ") + text.slice(node.names.at(-1)!.end);
  return stays(lead, { note: ours.note, rows: [{ text: line, end: ours.rows[0]!.end }] });
}

const ACCEPTED = "one side changed it, the other accepted a finding about it";

/**
 * Which side counts, of two that each are or are not as the base has it; null where both changed it in two ways.
 * Where both are as in the base ours counts.
 */
function pick(
  isOursAsBase: boolean | null,
  isTheirsAsBase: boolean | null,
  isAlike: boolean,
): "ours" | "theirs" | null {
  if (isTheirsAsBase || isAlike) return "ours";
  return isOursAsBase ? "theirs" : null;
}

function mergedNote(
  base: readonly Row[],
  ours: readonly Row[],
  theirs: readonly Row[],
  style: Marks["style"],
): readonly Row[] | null {
  if (isSameNote(base, theirs) || isSameNote(ours, theirs)) return ours;
  if (isSameNote(base, ours)) return adapted(theirs);
  const pieces = mergeLines(base, ours, adapted(theirs), style);
  return pieces.some(({ kind }) => kind === "conflict")
    ? null
    : pieces.flatMap((each) => (each.kind === "rows" ? each.rows : []));
}

/** Whether of a statement that one side changed the other alone changed what is accepted in its note. */
function isAcceptedOtherwise(base: Parts, { ours, theirs }: { ours: Parts; theirs: Parts }, core: "ours" | "theirs") {
  const [changed, other] = core === "ours" ? [ours, theirs] : [theirs, ours];
  return other.accepted !== base.accepted && changed.accepted === base.accepted;
}

function isSameUnit(a: Unit, b: Unit): boolean {
  return isSameText(a.rows, b.rows) && isSameText(a.note, b.note);
}

function isSameNote(a: readonly Row[], b: readonly Row[]): boolean {
  return a.length === b.length && a.every(({ text }, i) => text.trim() === b[i]!.text.trim());
}

function inTheirs({ note, rows }: Unit): Pick<Unit, "note" | "rows"> {
  return { note: adapted(note), rows: adapted(rows) };
}

function stays(lead: readonly Row[], { note, rows }: { note: readonly Row[]; rows: readonly Row[] }): Outcome {
  return { kind: "stays", lead, pieces: [rowsPiece([...note, ...rows])] };
}
