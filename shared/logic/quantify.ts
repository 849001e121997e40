/** Fixing variables of a diagram, leaving them open, and finding those on which a set hangs. */
import { type Diagrams, EVERY, NONE } from "./diagram.ts";

/** A value for each level, or -1 where the variable is free. */
export type Fixed = Int32Array;

/** Every variable free. */
export function nothingFixed(diagrams: Diagrams): Fixed {
  return new Int32Array(diagrams.widths.length).fill(-1);
}

/** What is left of a set once some variables are fixed; it depends on none of them. */
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

/** Does a set hold once some variables are fixed, wherever the others are? */
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

/** Whether a set holds once some variables are fixed: always (1), never (0), or as the others decide (2). */
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
 * A function that takes the marked levels out of a set: with `diagrams.or` as `join`, what some of
 * their values bring into the set; with `diagrams.and`, what stays in it whatever they are. It
 * remembers, so keep it as long as the same levels are asked about.
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
 * A function that makes values alike: where `classes` has a list for a level, a state comes in as
 * soon as one that differs from it only in a value of the same class is there. A level of one
 * class is taken out altogether. It remembers, so keep it as long as the same classes are asked about.
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
 * By level, which values a set tells apart: those of one class always lead to the same. Null for
 * levels on which it does not hang. Classes are numbered from 0, in the order of their first values.
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

/** Up to so many values it is quicker to look each up among those before it. */
const FEW = 16;

/** The classes of those values that are alike both in `classOf` and in `other`. */
export function refineClasses(classOf: Int32Array, other: ArrayLike<number>): Int32Array {
  const met = new Int32Array(classOf.length);
  let count = 0;
  if (met.length > FEW) {
    const memo = new Map<number, number>();
    for (let v = 0; v < met.length; v++) {
      // One number for both: neither reaches 2^26, of which memory would not hold the nodes.
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

/** Counts a walk through all nodes of a set, each once; what ends up large is paid for with it. */
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

/** The levels on which a set hangs, rising. */
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
