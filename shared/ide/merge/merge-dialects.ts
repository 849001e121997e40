/** Merges dialects: the order of their lines decides, so that it stays, and lines are told apart by their left side. */
import { factScanner } from "../../dialect/file/fact-scanner.ts";
import type { Block, Document, Unit } from "./document.ts";
import { keepsHeadings } from "./headings.ts";
import { trimmed } from "./line-merge.ts";
import { contentOf, type Side } from "./match.ts";
import { mergeOrdered, type OrderedMerge } from "./ordered.ts";
import { isUnchanged, outcomeOf } from "./outcome.ts";
import { type Output, output } from "./output.ts";
import { adapted, isSameText, type Marks, type Piece, type Row, rowsPiece } from "./rows.ts";
import { inOneSpacing } from "./statement.ts";

export function mergeDialects(
  { base, ours, theirs }: Readonly<Record<Side, Document>>,
  style: Marks["style"],
): readonly Piece[] {
  const out = output();
  const parts = counted(base.blocks);
  const sides = { base: parts, ours: keyed(ours, parts), theirs: keyed(theirs, parts) };
  const steps = mergeOrdered(sides, BLOCKS);
  if (!steps) clash(out, sides.base, sides.ours, sides.theirs, "sections were moved and changed");
  for (const step of steps ?? []) {
    if (step.kind === "clash")
      clash(out, [], step.ours, step.theirs, "which of these sections comes first is said by neither side");
    else putBlock(out, step.base, step.ours, step.theirs, style);
  }
  return [...out.pieces, rowsPiece(isSameText(base.tail, ours.tail) ? adapted(theirs.tail) : ours.tail)];
}

/** A block with what tells it from others of its section. */
interface Counted extends Block {
  readonly key: string;
}

/** The blocks of a side, each with the key of the block of the base that it is, or with that of a new one. */
function keyed(side: Document, base: readonly Counted[]): Counted[] {
  const taken = new Set<string>();
  const found = new Map<Block, string>();
  const pairs = side.blocks.flatMap((block) =>
    base
      .filter(({ section }) => section === block.section)
      .slice(0, MOST_PARTS)
      .map((other) => ({ block, key: other.key, shared: sharedLines(block, other) })),
  );
  pairs.sort((a, b) => b.shared - a.shared);
  for (const { block, key } of pairs) {
    if (found.has(block) || taken.has(key)) continue;
    taken.add(key);
    found.set(block, key);
  }
  const counts = new Map<string, number>();
  return side.blocks.map((block) => {
    const known = found.get(block);
    if (known !== undefined) return { ...block, key: known };
    const count = counts.get(block.section) ?? 0;
    counts.set(block.section, count + 1);
    return { ...block, key: `${block.section}\0new ${count}` };
  });
}

/** So many parts of one section are compared with each other; nobody writes more. */
const MOST_PARTS = 8;

function sharedLines(a: Block, b: Block): number {
  const keys = new Set(b.units.map(keyOfUnit));
  return a.units.filter((unit) => keys.has(keyOfUnit(unit))).length;
}

function counted(blocks: readonly Block[]): Counted[] {
  return blocks.map((block, i) => ({ ...block, key: `${block.section}\0${i}` }));
}

const BLOCKS: OrderedMerge<Counted> = {
  keyOf: ({ key }) => key,
  isAlike: () => false,
  isUnchanged: (a, b) =>
    a.units.length === b.units.length && a.units.every((unit, i) => isUnchanged(unit, b.units[i]!, isSame)),
  isEither: (a, b) =>
    a.section !== b.section &&
    a.units.length * b.units.length <= 10_000 &&
    a.units.every((x) => isUnder(x) || b.units.every((y) => isUnder(y) || UNITS.isEither(x, y))),
};

function isSame(a: Unit, b: Unit): boolean {
  return said(a) === said(b);
}

function said({ line, rows }: Unit): string {
  if (line === null) return rows.map(({ text }) => text.trim()).join("\n");
  return inOneSpacing(line.text.slice(0, line.comment?.start ?? line.text.length));
}

const UNITS: OrderedMerge<Unit> = {
  keyOf: keyOfUnit,
  isUnchanged: (a, b) => isUnchanged(a, b, isSame),
  isAlike: (a, b) => {
    if (a.kind !== b.kind || a.kind !== "fact") return a.kind === b.kind;
    const [one, two] = [factOf(a), factOf(b)];
    return one.left === two.left || one.name === two.name;
  },
  isEither: (a, b) => {
    if (a.kind === "comment" || b.kind === "comment") return true;
    if (a.kind !== "fact" || b.kind !== "fact" || isUnder(a) || isUnder(b)) return false;
    const [one, two] = [factOf(a), factOf(b)];
    if (one.left === null || two.left === null) return one.left === two.left && one.name !== two.name;
    const isApart = !one.start.startsWith(two.start) && !two.start.startsWith(one.start);
    return isApart && one.name !== two.name;
  },
};

function isUnder(unit: Unit): boolean {
  return unit.kind === "fact" && /^under(\s|$)/.test(unit.name);
}

function keyOfUnit(unit: Unit): string {
  if (unit.kind !== "fact") return `${unit.kind}\0${unit.kind === "header" ? "" : contentOf(unit)}`;
  if (isUnder(unit)) return contentOf(unit);
  const { left, name } = factOf(unit);
  return `${left}\0${name}`;
}

/**
 * What tells each unit from all others of its section, also where several are about one thing, as the lines of a code:
 * those that say the same are one, then those that are left in their order.
 */
function keysOfUnits({ base, ours, theirs }: Readonly<Record<Side, readonly Unit[]>>): ReadonlyMap<Unit, string> {
  const keys = new Map<Unit, string>();
  const known = listsBy(base, keyOfUnit);
  for (const [key, units] of known) for (const [i, unit] of units.entries()) keys.set(unit, `${key}\0${i}`);
  for (const side of [ours, theirs]) {
    for (const [key, units] of listsBy(side, keyOfUnit)) {
      const olds = known.get(key) ?? [];
      const alike = listsBy(olds.toReversed(), said);
      const taken = new Set<Unit>();
      const take = (unit: Unit, old: Unit | undefined) => {
        if (!old) return;
        taken.add(old);
        keys.set(unit, keys.get(old)!);
      };
      for (const unit of units) take(unit, alike.get(said(unit))?.pop());
      const left = olds.filter((old) => !taken.has(old)).toReversed();
      for (const unit of units) if (!keys.has(unit)) take(unit, left.pop());
      // Alone of its name it is one with what the other side adds of that name; else with what says the same.
      const isAlone = olds.length === 0 && units.length === 1;
      const fresh = units.filter((unit) => !keys.has(unit));
      for (const [text, same] of listsBy(fresh, said))
        for (const [i, unit] of same.entries()) keys.set(unit, `${key}\0new${isAlone ? "" : ` ${i}\0${text}`}`);
    }
  }
  return keys;
}

function listsBy(units: readonly Unit[], keyOf: (unit: Unit) => string): Map<string, Unit[]> {
  const lists = new Map<string, Unit[]>();
  for (const unit of units) {
    const list = lists.get(keyOf(unit));
    if (list) list.push(unit);
    else lists.set(keyOf(unit), [unit]);
  }
  return lists;
}

interface Fact {
  readonly left: string | null;
  readonly start: string;
  readonly name: string;
}

const facts = new WeakMap<Unit, Fact>();

function factOf(unit: Unit): Fact {
  let fact = facts.get(unit);
  if (!fact) {
    fact = readFact(unit);
    facts.set(unit, fact);
  }
  return fact;
}

/** A line of a dialect: its left side with its text up to the first slot, and the name that it is about. */
function readFact({ line }: Unit): Fact {
  const { node, text } = line!;
  if (node.kind !== "fact") return { left: null, start: "", name: text.trim() };
  const scan = factScanner(text, node.content);
  const left = scan.boardText();
  const first = scan.rest().text;
  const second = /^(motor|pack|cannot)/.test(first) ? text.slice(scan.at(), node.content.end) : first;
  if (!left) return { left: null, start: "", name: second };
  // How many blanks stand there may not count.
  const start = left.text.split("{")[0]!.trim().replace(/\s+/g, " ");
  return { left: left.text, start, name: second };
}

function putBlock(
  out: Output,
  base: Counted | null,
  ours: Counted | null,
  theirs: Counted | null,
  style: Marks["style"],
): void {
  if (!ours || !theirs) {
    const left = ours ?? theirs;
    if (!left || (base && BLOCKS.isUnchanged(base, left))) return;
    if (base)
      clash(out, [base], listOf(ours), listOf(theirs), `${base.section}: removed by one side, changed by the other`);
    else putRows(out, unitsOf(left), left === theirs);
    return;
  }
  const units = { base: base?.units ?? [], ours: ours.units, theirs: theirs.units };
  const keys = keysOfUnits(units);
  const keyOf = (unit: Unit) => keys.get(unit)!;
  const steps = mergeOrdered(units, { ...UNITS, keyOf });
  if (!steps || !keepsHeadings(steps, units, { keyOf, isHeading: isUnder })) {
    const why = steps
      ? "lines would come under a heading of neither side"
      : "one side moved a line that the other changed";
    clash(out, listOf(base), [ours], [theirs], `${ours.section}: ${why}`);
    return;
  }
  if (ours.heading) putUnit(out, { base: base?.heading ?? null, ours: ours.heading, theirs: theirs.heading }, style);
  for (const step of steps) {
    if (step.kind === "item") putUnit(out, step, style);
    else
      putClash(
        out,
        [],
        step.ours,
        step.theirs,
        `${ours.section}: which of these lines comes first is said by neither side`,
      );
  }
}

function putUnit(out: Output, units: Readonly<Record<Side, Unit | null>>, style: Marks["style"]): void {
  const outcome = outcomeOf(units, isSame, style);
  const first = units.ours ?? units.theirs;
  if (!first || outcome.kind === "goes") return;
  if (outcome.kind === "stays") out.put(outcome.lead, outcome.pieces, first.kind === "comment");
  else putClash(out, listOf(units.base), listOf(units.ours), listOf(units.theirs), `${said(first)}: ${outcome.why}`);
}

function clash(
  out: Output,
  base: readonly Block[],
  ours: readonly Block[],
  theirs: readonly Block[],
  why: string,
): void {
  putClash(out, base.flatMap(unitsOf), ours.flatMap(unitsOf), theirs.flatMap(unitsOf), why);
}

function putClash(
  out: Output,
  base: readonly Unit[],
  ours: readonly Unit[],
  theirs: readonly Unit[],
  why: string,
): void {
  const lead = ours[0]?.lead ?? adapted(theirs[0]?.lead ?? []);
  out.put(lead, trimmed(adapted(rowsOfUnits(base)), rowsOfUnits(ours), adapted(rowsOfUnits(theirs)), why), false);
}

function putRows(out: Output, units: readonly Unit[], isAdapted: boolean): void {
  const rows = rowsOfUnits(units);
  const lead = units[0]?.lead ?? [];
  out.put(
    isAdapted ? adapted(lead) : lead,
    [rowsPiece(isAdapted ? adapted(rows) : rows)],
    units.at(-1)?.kind === "comment",
  );
}

function unitsOf({ heading, units }: Block): readonly Unit[] {
  return heading ? [heading, ...units] : units;
}

function rowsOfUnits(units: readonly Unit[]): Row[] {
  return units.flatMap(({ lead, note, rows }, i) => [...(i > 0 ? lead : []), ...note, ...rows]);
}

function listOf<T>(item: T | null): T[] {
  return item ? [item] : [];
}
