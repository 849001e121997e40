/**
 * Boxes within a set: products of ranges of pulses, one for each of some channels, all of whose states are in the
 * set. A board whose lines test ranges holds a condition as a union of them. Like prime implicants, but with ranges
 * in place of any values, with at most so many of them, and only those that somebody can hold.
 */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import { asSet } from "./sets.ts";
import type { Box, BoxSearch, BoxSpan, RangeHolder } from "./switchboard-types.ts";
import type { BoardVariable } from "./variables.ts";

/** Values of one variable with the same pulses, as indexes; a dial's interval is alone. */
interface Step {
  readonly values: readonly number[];
  readonly fromUs: number;
  readonly toUs: number;
}

/** A range of a variable's steps, both included, and the holder that has it. */
interface Side {
  readonly level: number;
  readonly from: number;
  readonly to: number;
  readonly holder: number;
}
/** Ascending by level; a level without a side is free. */
type Sides = readonly Side[];

/** More boxes than this are not looked at one by one. */
const MOST_BOXES = 500;
/** More ranges than this in one line are not used. */
const MOST_HOLDERS = 8;

/**
 * The maximal boxes within a set that the holders can hold, each holder at most one range of a box; equal holders
 * are to be the same object. `complete` is false where there are too many, or finding them exceeds `budget.question`.
 */
export function findBoxes(compiled: Compiled, set: number, holders: readonly RangeHolder[]): BoxSearch {
  const { diagrams, budget, byLevel } = compiled;
  const used = holders.slice(0, MOST_HOLDERS);
  const held = spansHeld(compiled, used);
  const memo = new Map<number, readonly Sides[]>();
  let complete = true;

  /** The maximal boxes of a node, with the holders that are left, as bits. */
  const boxesOf = (node: number, left: number): readonly Sides[] => {
    if (node === NONE) return [];
    if (node === EVERY) return [[]];
    const key = node * (1 << MOST_HOLDERS) + left;
    const known = memo.get(key);
    if (known) return known;
    const level = diagrams.levelOf(node);
    const { steps } = held(level);
    diagrams.spendSteps(1 + (diagrams.widths[level]! >> 4));
    const children = steps.map(({ values }) =>
      values.reduce((part, value) => diagrams.and(part, diagrams.child(node, value)), EVERY),
    );
    const found: Sides[] = [...boxesOf(children.reduce(diagrams.and, EVERY), left)];
    for (let from = 0; from < steps.length && left !== 0; from++) {
      let part = EVERY;
      for (let to = from; to < steps.length; to++) {
        part = diagrams.and(part, children[to]!);
        if (part === NONE) break;
        if (from === 0 && to === steps.length - 1) break;
        // A wider range with the same part holds more.
        const next = to + 1 < steps.length ? diagrams.and(part, children[to + 1]!) : NONE;
        for (const holder of holdersOf(left)) {
          if (!held(level).holds(holder, from, to)) continue;
          if (next === part && !(from === 0 && to + 1 === steps.length - 1) && held(level).holds(holder, from, to + 1))
            continue;
          for (const rest of boxesOf(part, left & ~(1 << holder))) found.push([{ level, from, to, holder }, ...rest]);
        }
        if (found.length > MOST_BOXES * 4) {
          complete = false;
          break;
        }
      }
    }
    diagrams.spendSteps((found.length * found.length) >> 6);
    const largest = maximal(found);
    if (largest.length > MOST_BOXES) complete = false;
    const kept = largest.slice(0, MOST_BOXES);
    memo.set(key, kept);
    return kept;
  };
  /** Of holders that are the same the first one. */
  const holdersOf = (left: number): readonly number[] =>
    used.flatMap((holder, i) =>
      (left & (1 << i)) !== 0 && !used.some((other, j) => j < i && other === holder && (left & (1 << j)) !== 0)
        ? i
        : [],
    );

  const boxes = diagrams.withBudget(budget.question, () =>
    inBoardOrder(compiled, boxesOf(set, (1 << used.length) - 1)).map((sides): Box => {
      return {
        set: asSet(setOf(compiled, sides, (level) => held(level).steps)),
        spans: sides.map(({ level, from, to, holder }) => ({
          holder,
          span: spanOf(byLevel[level]!, held(level).steps, from, to),
        })),
      };
    }),
  );
  return { boxes: boxes ?? [], complete: complete && boxes !== null };
}

/** Boxes and their sides in the handset's order, then by rising pulse. */
function inBoardOrder({ indexOf }: Compiled, boxes: readonly Sides[]): Sides[] {
  const compare = (a: Side, b: Side) => indexOf[a.level]! - indexOf[b.level]! || a.from - b.from || a.to - b.to;
  return boxes
    .map((sides) => [...sides].sort(compare))
    .sort((a, b) => {
      for (let i = 0; i < a.length && i < b.length; i++) {
        const order = compare(a[i]!, b[i]!);
        if (order !== 0) return order;
      }
      return a.length - b.length;
    });
}

/** The whole range of a variable as a span: all that its channel carries. */
export function wholeSpan(variable: BoardVariable): BoxSpan {
  const steps = stepsOf(variable);
  return spanOf(variable, steps, 0, steps.length - 1);
}

/** By level: its steps, and whether a holder holds a range of them; each is asked once. */
function spansHeld({ byLevel }: Compiled, holders: readonly RangeHolder[]) {
  const levels = new Map<
    number,
    { readonly steps: readonly Step[]; holds(holder: number, from: number, to: number): boolean }
  >();
  return (level: number) => {
    const known = levels.get(level);
    if (known) return known;
    const variable = byLevel[level]!;
    const steps = stepsOf(variable);
    const answers = new Map<RangeHolder, Map<number, boolean>>();
    const holds = (holder: number, from: number, to: number): boolean => {
      const asked = holders[holder]!;
      const ofHolder = answers.get(asked) ?? new Map<number, boolean>();
      answers.set(asked, ofHolder);
      const key = from * steps.length + to;
      const before = ofHolder.get(key);
      const answer = before ?? asked.holds(spanOf(variable, steps, from, to));
      if (before === undefined) ofHolder.set(key, answer);
      return answer;
    };
    const made = { steps, holds };
    levels.set(level, made);
    return made;
  };
}

/** The values of a variable by rising pulse, those with the same pulse together. */
function stepsOf({ intervals }: BoardVariable): readonly Step[] {
  const order = intervals.map((_, value) => value).sort((a, b) => intervals[a]!.fromUs - intervals[b]!.fromUs);
  const steps: { values: number[]; fromUs: number; toUs: number }[] = [];
  for (const value of order) {
    const { fromUs, toUs } = intervals[value]!;
    const last = steps.at(-1);
    if (last?.fromUs === fromUs && last.toUs === toUs) last.values.push(value);
    else steps.push({ values: [value], fromUs, toUs });
  }
  return steps;
}

function spanOf(variable: BoardVariable, steps: readonly Step[], from: number, to: number): BoxSpan {
  return {
    variable,
    fromUs: steps[from]!.fromUs,
    toUs: steps[to]!.toUs,
    belowUs: steps[from - 1]?.toUs ?? null,
    aboveUs: steps[to + 1]?.fromUs ?? null,
    isContinuous: variable.rangeUs !== null,
  };
}

function setOf({ diagrams }: Compiled, sides: Sides, stepsAt: (level: number) => readonly Step[]): number {
  let node = EVERY;
  for (const { level, from, to } of [...sides].sort((a, b) => b.level - a.level)) {
    diagrams.spend(level);
    const children = new Array<number>(diagrams.widths[level]!).fill(NONE);
    for (const { values } of stepsAt(level).slice(from, to + 1)) for (const value of values) children[value] = node;
    node = diagrams.make(level, children);
  }
  return node;
}

/** Those that lie in no other one; of equal ones the first. */
function maximal(boxes: readonly Sides[]): readonly Sides[] {
  return boxes.filter(
    (box, i) => !boxes.some((other, j) => j !== i && liesIn(box, other) && (j < i || !liesIn(other, box))),
  );
}

function liesIn(inner: Sides, outer: Sides): boolean {
  return outer.every(({ level, from, to }) =>
    inner.some((side) => side.level === level && from <= side.from && side.to <= to),
  );
}
