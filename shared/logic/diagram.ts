/**
 * Reduced ordered decision diagrams with many-valued variables.
 *
 * A node tests one variable and has a child for each of its values; the terminal 0 is the empty
 * set, the terminal 1 the set of all states. No node has only equal children and no two nodes are
 * equal, so two sets are equal if and only if they are the same number (Bryant, "Graph-Based
 * Algorithms for Boolean Function Manipulation", IEEE Trans. Computers C-35, 1986, carried over to
 * many values; from memory).
 */
import { hashPair, makePairTable, type PairTable } from "./pair-table.ts";

export const NONE = 0;
export const EVERY = 1;

export interface Diagrams {
  /** How many values each level's variable has. */
  readonly widths: readonly number[];
  /** The level of the variable that a node tests; for a terminal the number of levels. */
  levelOf(node: number): number;
  /** The child of a node that is not a terminal, for a value of its variable. */
  child(node: number, value: number): number;
  /** The node with these children, one for each value of the level's variable; all must lie on later levels. Takes no step. */
  make(level: number, children: ArrayLike<number>): number;
  /** The intersection; O(|a| · |b|) steps. */
  and(a: number, b: number): number;
  /** The union; O(|a| · |b|) steps. */
  or(a: number, b: number): number;
  /** The complement; linear in the nodes of `a`, and takes no step. */
  not(a: number): number;
  /** Whether the intersection is not empty; O(|a| · |b|) steps, and makes no node. */
  meet(a: number, b: number): boolean;
  /** Number of nodes made so far, both terminals included; none is ever freed. */
  size(): number;
  /**
   * The result of a task, or null where it takes more than so many steps. An outermost task starts
   * with empty memo tables, so what it costs does not depend on earlier ones, and the same question
   * always has the same answer. A nested task is also ended by the limit of the one around it.
   * Errors other than that of the limit pass through.
   */
  withBudget<T>(mostSteps: number, task: () => T): T | null;
  /** Charges the visit of a node of this level, for walks outside of this file; may end the task. */
  spend(level: number): void;
  /** Charges other work, in steps; may end the task. */
  spendSteps(steps: number): void;
  /** Ends the task as if it had exceeded its steps. */
  giveUp(): never;
  /** Steps charged so far, of all tasks. */
  spent(): number;
}

/** Ends a task over its limit; never leaves the outermost `withBudget`. */
const OVER = new Error("more work than the budget allows");

/** Diagrams over variables with these numbers of values, in this order of levels. */
export function makeDiagrams(widths: readonly number[]): Diagrams {
  const bottom = widths.length;
  let levels = new Int32Array(64);
  let firsts = new Int32Array(64);
  let children = new Int32Array(256);
  let count = 2;
  let childCount = 0;
  let mask = 255;
  let table = new Int32Array(mask + 1);
  // Children under construction, as a stack, so that the recursion below allocates no arrays.
  let stack = new Int32Array(256);
  let top = 0;
  levels[NONE] = bottom;
  levels[EVERY] = bottom;
  // The children of one wide node are visited much faster than as many nodes.
  const steps = Int32Array.from([...widths, 0], (width) => 1 + (width >> 5));
  let spent = 0;
  let limit = Number.POSITIVE_INFINITY;
  const spendSteps = (more: number): void => {
    spent += more;
    if (spent > limit) throw OVER;
  };
  const spend = (level: number): void => spendSteps(steps[level]!);
  let memoHits = 0;
  /** Eight hits in a memo table are a step. */
  const chargeMemoHit = (): void => {
    if ((++memoHits & 7) === 0) spendSteps(1);
  };

  const hashOf = (level: number, list: Int32Array, from: number): number => {
    let hash = level;
    for (let i = from, end = from + widths[level]!; i < end; i++) hash = hashPair(hash, list[i]!);
    return hash;
  };
  const rehash = (): void => {
    mask = mask * 2 + 1;
    table = new Int32Array(mask + 1);
    for (let node = 2; node < count; node++) {
      let at = hashOf(levels[node]!, children, firsts[node]!) & mask;
      while (table[at] !== 0) at = (at + 1) & mask;
      table[at] = node;
    }
  };
  const same = (node: number, level: number, from: number, width: number): boolean => {
    if (levels[node] !== level) return false;
    const first = firsts[node]!;
    for (let i = 0; i < width; i++) if (children[first + i] !== stack[from + i]) return false;
    return true;
  };
  /** The unique node with the children on the stack from `from` on. */
  const intern = (level: number, from: number): number => {
    const width = widths[level]!;
    const only = stack[from]!;
    let i = 1;
    while (i < width && stack[from + i] === only) i++;
    if (i === width) return only;
    let at = hashOf(level, stack, from) & mask;
    for (let node = table[at]!; node !== 0; node = table[at]!) {
      if (same(node, level, from, width)) return node;
      at = (at + 1) & mask;
    }
    if (count === levels.length) {
      levels = enlarged(levels, count + 1);
      firsts = enlarged(firsts, count + 1);
    }
    children = enlarged(children, childCount + width);
    for (let v = 0; v < width; v++) children[childCount + v] = stack[from + v]!;
    levels[count] = level;
    firsts[count] = childCount;
    childCount += width;
    table[at] = count;
    if (count * 2 > mask) {
      count++;
      rehash();
      return count - 1;
    }
    return count++;
  };
  const childAt = (node: number, level: number, value: number): number =>
    levels[node] === level ? children[firsts[node]! + value]! : node;
  const push = (width: number): number => {
    const from = top;
    top += width;
    stack = enlarged(stack, top);
    return from;
  };

  const ands = makePairTable();
  const ors = makePairTable();
  const meets = makePairTable();
  // Kept from task to task, and free: no node is complemented twice, and each was charged when made.
  const nots = makePairTable();

  /** Bryant's apply: with `absorbing` 0 and `neutral` 1 “and”, the other way about “or”. */
  const combine = (a: number, b: number, absorbing: number, neutral: number, memo: PairTable): number => {
    if (a === absorbing || b === absorbing) return absorbing;
    if (a === neutral || a === b) return b;
    if (b === neutral) return a;
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const known = memo.get(low, high);
    if (known >= 0) {
      chargeMemoHit();
      return known;
    }
    const level = Math.min(levels[a]!, levels[b]!);
    spend(level);
    const width = widths[level]!;
    const from = push(width);
    for (let v = 0; v < width; v++) {
      const result = combine(childAt(a, level, v), childAt(b, level, v), absorbing, neutral, memo);
      stack[from + v] = result;
    }
    const node = intern(level, from);
    top = from;
    memo.set(low, high, node);
    return node;
  };
  const not = (a: number): number => {
    if (a <= EVERY) return EVERY - a;
    const known = nots.get(a, 0);
    if (known >= 0) return known;
    const level = levels[a]!;
    const width = widths[level]!;
    const from = push(width);
    for (let v = 0; v < width; v++) {
      const result = not(childAt(a, level, v));
      stack[from + v] = result;
    }
    const node = intern(level, from);
    top = from;
    nots.set(a, 0, node);
    if (nots.get(node, 0) < 0) nots.set(node, 0, a);
    return node;
  };
  const meet = (a: number, b: number): boolean => {
    if (a === NONE || b === NONE) return false;
    // Every node but 0 contains some state.
    if (a === EVERY || b === EVERY || a === b) return true;
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const known = meets.get(low, high);
    if (known >= 0) {
      chargeMemoHit();
      return known === 1;
    }
    const level = Math.min(levels[a]!, levels[b]!);
    spend(level);
    let found = false;
    for (let v = 0; v < widths[level]! && !found; v++) found = meet(childAt(a, level, v), childAt(b, level, v));
    meets.set(low, high, found ? 1 : 0);
    return found;
  };

  return {
    widths,
    levelOf: (node) => levels[node]!,
    child: (node, value) => children[firsts[node]! + value]!,
    make: (level, list) => {
      const from = push(widths[level]!);
      stack.set(list as ArrayLike<number>, from);
      const node = intern(level, from);
      top = from;
      return node;
    },
    and: (a, b) => combine(a, b, NONE, EVERY, ands),
    or: (a, b) => combine(a, b, EVERY, NONE, ors),
    not,
    meet,
    size: () => count,
    withBudget: (mostSteps, task) => {
      const [outer, before] = [limit, top];
      if (outer === Number.POSITIVE_INFINITY) {
        for (const memo of [ands, ors, meets]) memo.clear();
        memoHits = 0;
      }
      limit = Math.min(outer, spent + mostSteps);
      try {
        return task();
      } catch (error) {
        if (error !== OVER || spent > outer) throw error;
        top = before;
        return null;
      } finally {
        limit = outer;
      }
    },
    spend,
    spendSteps,
    giveUp: () => {
      throw OVER;
    },
    spent: () => spent,
  };
}

function enlarged(list: Int32Array<ArrayBuffer>, needed: number): Int32Array<ArrayBuffer> {
  if (needed <= list.length) return list;
  const larger = new Int32Array(Math.max(needed, list.length * 2));
  larger.set(list);
  return larger;
}
