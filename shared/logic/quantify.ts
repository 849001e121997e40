/** Restriction, quantification and abstraction of sets, and the variables on which a set depends. */
import { type Diagrams, EVERY, NONE } from "./diagram.ts";

/** A value for each level, or -1 where the variable is free. */
export type Fixed = Int32Array;

/** Every variable free. */
export function nothingFixed(diagrams: Diagrams): Fixed {
  return new Int32Array(diagrams.widths.length).fill(-1);
}

/** The cofactor of a set once some variables are fixed; it depends on none of them. Linear in the set. */
export function cofactor(diagrams: Diagrams, node: number, fixed: Fixed): number {
  const memo = new Map<number, number>();
  const visit = (at: number): number => {
    if (at <= EVERY) return at;
    const earlier = memo.get(at);
    if (earlier !== undefined) return earlier;
    const level = diagrams.levelOf(at);
    const value = fixed[level]!;
    let result: number;
    if (value >= 0) {
      result = visit(diagrams.child(at, value));
    } else {
      const children: number[] = [];
      for (let v = 0; v < diagrams.widths[level]!; v++) children.push(visit(diagrams.child(at, v)));
      result = diagrams.make(level, children);
    }
    memo.set(at, result);
    return result;
  };
  return visit(node);
}

/** Whether a set contains every state with these fixed values. Linear in the set, and charged. */
export function holdsGiven(diagrams: Diagrams, node: number, fixed: Fixed): boolean {
  const seen = new Set<number>();
  const holds = (at: number): boolean => {
    if (at <= EVERY) return at === EVERY;
    diagrams.spend(diagrams.levelOf(at));
    const level = diagrams.levelOf(at);
    const value = fixed[level]!;
    if (value >= 0) return holds(diagrams.child(at, value));
    if (seen.has(at)) return true;
    seen.add(at);
    for (let v = 0; v < diagrams.widths[level]!; v++) if (!holds(diagrams.child(at, v))) return false;
    return true;
  };
  return holds(node);
}

/** Whether a set contains all states with these fixed values (1), none (0), or some (2). Linear in the set. */
export function truthGiven(diagrams: Diagrams, node: number, fixed: Fixed): 0 | 1 | 2 {
  const memo = new Map<number, 0 | 1 | 2>();
  const visit = (at: number): 0 | 1 | 2 => {
    if (at <= EVERY) return at as 0 | 1;
    const earlier = memo.get(at);
    if (earlier !== undefined) return earlier;
    const level = diagrams.levelOf(at);
    const value = fixed[level]!;
    let result: 0 | 1 | 2;
    if (value >= 0) {
      result = visit(diagrams.child(at, value));
    } else {
      result = visit(diagrams.child(at, 0));
      for (let v = 1; v < diagrams.widths[level]! && result !== 2; v++) {
        if (visit(diagrams.child(at, v)) !== result) result = 2;
      }
    }
    memo.set(at, result);
    return result;
  };
  return visit(node);
}

/**
 * A function that quantifies the marked levels of a set: existentially with `diagrams.or` as `join`,
 * universally with `diagrams.and`. It keeps a memo table, so use it again for the same levels. The
 * result can be exponentially larger than the set; every step is charged.
 */
export function makeQuantifier(
  diagrams: Diagrams,
  marked: Uint8Array,
  join: (a: number, b: number) => number,
): (node: number) => number {
  const last = marked.lastIndexOf(1);
  const absorbing = join(NONE, EVERY);
  const memo = new Map<number, number>();
  const visit = (at: number): number => {
    const level = diagrams.levelOf(at);
    if (level > last) return at;
    const earlier = memo.get(at);
    if (earlier !== undefined) return earlier;
    diagrams.spend(level);
    const width = diagrams.widths[level]!;
    let result = 0;
    if (marked[level] === 1) {
      result = visit(diagrams.child(at, 0));
      for (let v = 1; v < width && result !== absorbing; v++) result = join(result, visit(diagrams.child(at, v)));
    } else {
      const children: number[] = [];
      for (let v = 0; v < width; v++) children.push(visit(diagrams.child(at, v)));
      result = diagrams.make(level, children);
    }
    memo.set(at, result);
    return result;
  };
  return visit;
}

/**
 * A function that abstracts a set existentially by equivalence classes of values: where `classes` has
 * a list for a level, the result contains a state if the set contains one that differs from it only in
 * values of the same classes. A level with a single class is quantified altogether. It keeps a memo
 * table, so use it again for the same classes; every step is charged.
 */
export function makeAbstraction(diagrams: Diagrams, classes: readonly (Int32Array | null)[]): (node: number) => number {
  const last = classes.findLastIndex((each) => each !== null);
  const memo = new Map<number, number>();
  const visit = (at: number): number => {
    const level = diagrams.levelOf(at);
    if (level > last) return at;
    const earlier = memo.get(at);
    if (earlier !== undefined) return earlier;
    const width = diagrams.widths[level]!;
    diagrams.spendSteps(1 + (width >> 3));
    const classOf = classes[level];
    const children: number[] = [];
    for (let v = 0; v < width; v++) children.push(visit(diagrams.child(at, v)));
    if (classOf) {
      const joined = new Array<number>(width).fill(NONE);
      for (let v = 0; v < width; v++) joined[classOf[v]!] = diagrams.or(joined[classOf[v]!]!, children[v]!);
      for (let v = 0; v < width; v++) children[v] = joined[classOf[v]!]!;
    }
    const result = diagrams.make(level, children);
    memo.set(at, result);
    return result;
  };
  return visit;
}

/**
 * By level, the classes of values that a set does not distinguish: in every node the values of one
 * class have the same child. Null for levels on which the set does not depend. Classes are numbered
 * from 0, in the order of their first values. Linear in the set, and charged.
 */
export function valueClasses(diagrams: Diagrams, node: number): readonly (Int32Array | null)[] {
  const classes: (Int32Array | null)[] = diagrams.widths.map(() => null);
  const seen = new Set<number>();
  const visit = (at: number): void => {
    if (at <= EVERY || seen.has(at)) return;
    seen.add(at);
    const level = diagrams.levelOf(at);
    const width = diagrams.widths[level]!;
    diagrams.spendSteps(1 + (width >> 3));
    const children: number[] = [];
    for (let v = 0; v < width; v++) {
      children.push(diagrams.child(at, v));
      visit(children[v]!);
    }
    classes[level] = refineClasses(classes[level] ?? new Int32Array(width), children);
  };
  visit(node);
  return classes;
}

/** Up to this number of values, a linear search is faster than a map. */
const FEW = 16;

/** The coarsest common refinement: values are in one class if they are so in both partitions. */
export function refineClasses(classOf: Int32Array, other: ArrayLike<number>): Int32Array {
  const met = new Int32Array(classOf.length);
  let count = 0;
  if (met.length > FEW) {
    const memo = new Map<number, number>();
    for (let v = 0; v < met.length; v++) {
      // One number for both: neither reaches 2^26, since memory would not hold so many nodes.
      const key = classOf[v]! * 2 ** 26 + other[v]!;
      const earlier = memo.get(key);
      if (earlier === undefined) memo.set(key, count);
      met[v] = earlier ?? count++;
    }
    return met;
  }
  for (let v = 0; v < met.length; v++) {
    let alike = 0;
    while (alike < v && (classOf[alike] !== classOf[v] || other[alike] !== other[v])) alike++;
    met[v] = alike < v ? met[alike]! : count++;
  }
  return met;
}

/** Charges one visit of each node of a set. */
export function spendOnNodes(diagrams: Diagrams, node: number): void {
  const seen = new Set<number>();
  const visit = (at: number): void => {
    if (at <= EVERY || seen.has(at)) return;
    seen.add(at);
    const level = diagrams.levelOf(at);
    diagrams.spend(level);
    for (let v = 0; v < diagrams.widths[level]!; v++) visit(diagrams.child(at, v));
  };
  visit(node);
}

/** The levels on which a set depends, ascending. Linear in the set. */
export function supportOf(diagrams: Diagrams, node: number): readonly number[] {
  const seen = new Set<number>();
  const marks = new Uint8Array(diagrams.widths.length);
  const visit = (at: number): void => {
    if (at <= EVERY || seen.has(at)) return;
    seen.add(at);
    const level = diagrams.levelOf(at);
    marks[level] = 1;
    for (let v = 0; v < diagrams.widths[level]!; v++) visit(diagrams.child(at, v));
  };
  visit(node);
  const levels: number[] = [];
  for (let level = 0; level < marks.length; level++) if (marks[level] === 1) levels.push(level);
  return levels;
}
