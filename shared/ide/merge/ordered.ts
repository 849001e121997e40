/** Merges lists in which the order counts: nothing is moved, and what both add in one place must not depend on it. */
import { partnersOf } from "./align.ts";

export interface OrderedSides<T> {
  readonly base: readonly T[];
  readonly ours: readonly T[];
  readonly theirs: readonly T[];
}

export interface OrderedMerge<T> {
  /** What tells an item from the others of its list. */
  keyOf(item: T): string;
  isUnchanged(before: T, now: T): boolean;
  /** Whether one may stand for the other in its place, changed. */
  isAlike(a: T, b: T): boolean;
  /** Whether it makes no difference which of two stands first. */
  isEither(a: T, b: T): boolean;
}

/** One step of the result: an item with what the sides have of it, or a place where nobody says what comes first. */
export type OrderedStep<T> =
  | { readonly kind: "item"; readonly base: T | null; readonly ours: T | null; readonly theirs: T | null }
  | { readonly kind: "clash"; readonly ours: readonly T[]; readonly theirs: readonly T[] };

/** The steps in order; null where one item would stand twice, or in two places at once. */
export function mergeOrdered<T>(sides: OrderedSides<T>, how: OrderedMerge<T>): OrderedStep<T>[] | null {
  const { base, ours, theirs } = sides;
  const [inOurs, inTheirs] = [partners(base, ours, how), partners(base, theirs, how)];
  const [newOurs, newTheirs] = [gapsOf(inOurs, ours), gapsOf(inTheirs, theirs)];
  if (isTwice(newOurs, newTheirs, how)) return null;
  for (const [i, before] of base.entries()) {
    if (inOurs[i]! >= 0 || inTheirs[i]! >= 0) continue;
    if (!takeOut(before, newOurs, newTheirs, how) || !takeOut(before, newTheirs, newOurs, how)) return null;
  }
  const moved = { ours: keysIn(newOurs, how), theirs: keysIn(newTheirs, how) };
  if (isMovedByBoth(base.map(how.keyOf), moved)) return null;
  const steps: OrderedStep<T>[] = [];
  for (let i = 0; i <= base.length; i++) {
    steps.push(...stepsOfGap(newOurs[i]!, newTheirs[i]!, how));
    if (i === base.length) break;
    const before = base[i]!;
    const [o, t] = [ours[inOurs[i]!] ?? null, theirs[inTheirs[i]!] ?? null];
    const isMoved =
      (o === null && moved.ours.has(how.keyOf(before))) || (t === null && moved.theirs.has(how.keyOf(before)));
    const left = o ?? t;
    // One moved it and the other changed it: the change would stay behind.
    if (isMoved && left && !how.isUnchanged(before, left)) return null;
    steps.push({ kind: "item", base: before, ours: o, theirs: t });
  }
  const isMoved = base.some((each) => moved.ours.has(how.keyOf(each)) || moved.theirs.has(how.keyOf(each)));
  if (!isMoved) return steps;
  // A conflict of what was moved would leave it out on the side that has it elsewhere.
  const known = new Set(base.map(how.keyOf));
  const isMovedInto = (step: OrderedStep<T>) =>
    step.kind === "clash" && [...step.ours, ...step.theirs].some((each) => known.has(how.keyOf(each)));
  return steps.some(isMovedInto) || !isSaidOrder(steps, sides, how) ? null : steps;
}

/** Takes out of what a side moved an item that the other removed; false where the side changed it as well. */
function takeOut<T>(before: T, gaps: T[][], others: readonly (readonly T[])[], how: OrderedMerge<T>): boolean {
  const key = how.keyOf(before);
  if (others.some((gap) => gap.some((each) => how.keyOf(each) === key))) return true;
  for (const gap of gaps) {
    const at = gap.findIndex((each) => how.keyOf(each) === key);
    if (at < 0) continue;
    if (!how.isUnchanged(before, gap[at]!)) return false;
    gap.splice(at, 1);
  }
  return true;
}

/** Whether no two of which it counts stand in an order that contradicts what the sides say. */
function isSaidOrder<T>(steps: readonly OrderedStep<T>[], sides: OrderedSides<T>, how: OrderedMerge<T>): boolean {
  const places = {
    base: placesOf(sides.base, how),
    ours: placesOf(sides.ours, how),
    theirs: placesOf(sides.theirs, how),
  };
  const items = steps.flatMap((step) => {
    if (step.kind === "clash") return [];
    const item = step.ours ?? step.theirs;
    // What one side has no more goes from here.
    if (item === null || (step.base && !(step.ours && step.theirs))) return [];
    const key = how.keyOf(step.base ?? item);
    const placeIn = (side: keyof typeof places) => places[side].get(step[side] ? how.keyOf(step[side]) : key) ?? null;
    return [{ item, base: placeIn("base"), ours: placeIn("ours"), theirs: placeIn("theirs") }];
  });
  if (items.length > MOST_ORDERED) return false;
  return items.every((second, j) =>
    items.slice(0, j).every((first) => isBefore(first, second) || how.isEither(first.item, second.item)),
  );
}

const MOST_ORDERED = 300;

/** Where the items of a list stand, by key; not those whose key stands twice. */
function placesOf<T>(items: readonly T[], { keyOf }: OrderedMerge<T>): ReadonlyMap<string, number | null> {
  const places = new Map<string, number | null>();
  items.forEach((item, i) => {
    const key = keyOf(item);
    places.set(key, places.has(key) ? null : i);
  });
  return places;
}

type Places = Readonly<Record<"base" | "ours" | "theirs", number | null>>;

/** Whether one stands before the other by the side that changed that, or no side has both. */
function isBefore(first: Places, second: Places): boolean {
  const inSide = (side: keyof Places) =>
    first[side] === null || second[side] === null ? null : first[side] < second[side];
  const [base, ours, theirs] = [inSide("base"), inSide("ours"), inSide("theirs")];
  if (ours === null || theirs === null) return ours ?? theirs ?? true;
  if (ours === theirs) return ours;
  return base === null ? false : base !== ours ? ours : theirs;
}

/** Partners by key; those in between that have none are the same where there are as many on both sides. */
function partners<T>(base: readonly T[], side: readonly T[], { keyOf, isAlike }: OrderedMerge<T>): Int32Array {
  const found = partnersOf(base.map(keyOf), side.map(keyOf));
  const keys = new Set(side.map(keyOf));
  const old = new Set(base.map(keyOf));
  for (let i = 0, j = 0; i < base.length; ) {
    let end = i;
    while (end < base.length && found[end]! < 0) end++;
    const to = end < base.length ? found[end]! : side.length;
    if (end - i === to - j)
      for (let k = 0; k < end - i; k++)
        if (!keys.has(keyOf(base[i + k]!)) && !old.has(keyOf(side[j + k]!)) && isAlike(base[i + k]!, side[j + k]!))
          found[i + k] = j + k;
    [i, j] = [end + 1, to + 1];
  }
  return found;
}

/** What a side adds in front of each item of the base, and behind the last one. */
function gapsOf<T>(inSide: Int32Array, side: readonly T[]): T[][] {
  const gaps: T[][] = Array.from({ length: inSide.length + 1 }, () => []);
  const taken = new Map<number, number>();
  inSide.forEach((at, i) => {
    if (at >= 0) taken.set(at, i);
  });
  let gap = 0;
  side.forEach((item, j) => {
    const i = taken.get(j);
    if (i === undefined) gaps[gap]!.push(item);
    else gap = i + 1;
  });
  return gaps;
}

function keysIn<T>(gaps: readonly (readonly T[])[], { keyOf }: OrderedMerge<T>): Set<string> {
  return new Set(gaps.flatMap((gap) => gap.map(keyOf)));
}

/** Whether both sides moved something, and not the same: together the lines would stand as neither has them. */
function isMovedByBoth(
  base: readonly string[],
  moved: Readonly<Record<"ours" | "theirs", ReadonlySet<string>>>,
): boolean {
  const [ours, theirs] = [moved.ours, moved.theirs].map((keys) => base.filter((key) => keys.has(key)));
  return ours!.length > 0 && theirs!.length > 0 && ours!.join("\n") !== theirs!.join("\n");
}

/** Whether both sides added one item, in two places. */
function isTwice<T>(
  ours: readonly (readonly T[])[],
  theirs: readonly (readonly T[])[],
  { keyOf }: OrderedMerge<T>,
): boolean {
  const places = new Map<string, number>();
  ours.forEach((gap, i) => {
    for (const item of gap) places.set(keyOf(item), i);
  });
  return theirs.some((gap, i) => gap.some((item) => (places.get(keyOf(item)) ?? i) !== i));
}

function stepsOfGap<T>(ours: readonly T[], theirs: readonly T[], how: OrderedMerge<T>): OrderedStep<T>[] {
  const { keyOf, isEither } = how;
  const inOurs = new Map(ours.map((item) => [keyOf(item), item]));
  const inTheirs = new Map(theirs.map((item) => [keyOf(item), item]));
  const both = ours.filter((item) => inTheirs.has(keyOf(item))).map(keyOf);
  const isSameOrder = theirs.filter((item) => inOurs.has(keyOf(item))).every((item, i) => keyOf(item) === both[i]);
  const onlyOurs = ours.filter((each) => !inTheirs.has(keyOf(each)));
  const onlyTheirs = theirs.filter((each) => !inOurs.has(keyOf(each)));
  const step = (item: T): OrderedStep<T> => {
    const key = keyOf(item);
    return { kind: "item", base: null, ours: inOurs.get(key) ?? null, theirs: inTheirs.get(key) ?? null };
  };
  if (isSameOrder && onlyTheirs.length === 0) return ours.map(step);
  if (isSameOrder && onlyOurs.length === 0) return theirs.map(step);
  const isFree =
    onlyOurs.length * onlyTheirs.length <= MOST_PAIRS && onlyOurs.every((a) => onlyTheirs.every((b) => isEither(a, b)));
  const known = new Set(both);
  if (!isSameOrder || !isFree || !isBehind(ours, known, how) || !isBehind(theirs, known, how))
    return [{ kind: "clash", ours, theirs }];
  return [...ours, ...onlyTheirs].map(step);
}

const MOST_PAIRS = 10_000;

/** Whether what a side has alone stands behind all that both have. */
function isBehind<T>(items: readonly T[], known: ReadonlySet<string>, { keyOf }: OrderedMerge<T>): boolean {
  const last = items.findLastIndex((item) => known.has(keyOf(item)));
  return items.findIndex((item) => !known.has(keyOf(item))) > last;
}
