/** The distinct sets of modes that the controls can reach: how many, and which. */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import { makeQuantifier, supportOf } from "./quantify.ts";
import { asSet } from "./sets.ts";
import type { DistinctState, Positions } from "./types.ts";
import { findWitness } from "./witness.ts";

interface Mode {
  readonly set: number;
  readonly support: readonly number[];
}

/**
 * How many distinct lists of yes and no the sets give over the states of `within`.
 *
 * Sets that share no variable, however indirectly, are counted apart and multiplied. Within such a
 * group one set after another is decided both ways; a variable is left open (bucket elimination)
 * as soon as no set still to come asks it, and equal remains are counted once. Exact up to 2^53.
 */
export function countImages(diagrams: Diagrams, sets: readonly number[], within: number = EVERY): number {
  if (within === NONE) return 0;
  const restriction: Mode = { set: within, support: supportOf(diagrams, within) };
  let total = 1;
  for (const group of groupsOf(diagrams, distinct(diagrams, sets), restriction)) {
    const restricted = group.some(({ support }) => support.some((level) => restriction.support.includes(level)));
    total *= countGroup(diagrams, group, restricted ? restriction : { set: EVERY, support: [] });
  }
  return total;
}

/** One of each set that is neither empty nor everything, and of a set and its opposite only one. */
function distinct(diagrams: Diagrams, sets: readonly number[]): readonly Mode[] {
  const kept = new Set<number>();
  for (const set of sets) if (set > EVERY && !kept.has(diagrams.not(set))) kept.add(set);
  return [...kept].map((set) => ({ set, support: supportOf(diagrams, set) }));
}

/** Groups that share no variable with each other; the variables of `restriction` hold together. */
function groupsOf(diagrams: Diagrams, modes: readonly Mode[], restriction: Mode): readonly (readonly Mode[])[] {
  const parent = diagrams.widths.map((_, level) => level);
  const root = (level: number): number => {
    let at = level;
    while (parent[at] !== at) at = parent[at]!;
    return at;
  };
  for (const { support } of [...modes, restriction]) {
    for (const level of support) parent[root(level)] = root(support[0]!);
  }
  const groups = new Map<number, Mode[]>();
  for (const mode of modes) {
    const at = root(mode.support[0]!);
    groups.set(at, [...(groups.get(at) ?? []), mode]);
  }
  return [...groups.values()];
}

function countGroup(diagrams: Diagrams, modes: readonly Mode[], restriction: Mode): number {
  const order = arrange(diagrams, modes, restriction.support);
  const lastUse = new Map<number, number>(restriction.support.map((level) => [level, -1]));
  order.forEach(({ support }, i) => {
    for (const level of support) lastUse.set(level, i);
  });
  const leaveOpen = (step: number): ((set: number) => number) => {
    const marked = new Uint8Array(diagrams.widths.length);
    for (const [level, last] of lastUse) if (last === step) marked[level] = 1;
    return marked.includes(1) ? makeQuantifier(diagrams, marked, diagrams.or) : (set) => set;
  };
  const afterStep = order.map((_, i) => leaveOpen(i));
  const opposites = order.map(({ set }) => diagrams.not(set));
  const known = order.map(() => new Map<number, number>());
  const count = (step: number, reached: number): number => {
    if (reached === NONE) return 0;
    if (step === order.length) return 1;
    const earlier = known[step]!.get(reached);
    if (earlier !== undefined) return earlier;
    const next = afterStep[step]!;
    const result =
      count(step + 1, next(diagrams.and(reached, order[step]!.set))) +
      count(step + 1, next(diagrams.and(reached, opposites[step]!)));
    known[step]!.set(reached, result);
    return result;
  };
  return count(0, leaveOpen(-1)(restriction.set));
}

/**
 * An order in which few variables are open at any time: always the set that opens least, counted
 * in the logarithm of the values, and rather one that closes a variable.
 */
export function arrange(diagrams: Diagrams, modes: readonly Mode[], opened: readonly number[]): readonly Mode[] {
  const waiting = [...modes];
  const uses = new Map<number, number>();
  for (const { support } of modes) for (const level of support) uses.set(level, (uses.get(level) ?? 0) + 1);
  const open = new Set(opened);
  const cost = ({ support }: Mode): number => {
    let sum = 0;
    for (const level of support) {
      const weight = Math.log(diagrams.widths[level]!);
      if (!open.has(level)) sum += weight;
      // A little more than it costs to open, so that closing wins among equals.
      if (uses.get(level) === 1) sum -= weight * 1.01;
    }
    return sum;
  };
  const order: Mode[] = [];
  while (waiting.length > 0) {
    const costs = waiting.map(cost);
    const [mode] = waiting.splice(costs.indexOf(Math.min(...costs)), 1) as [Mode];
    order.push(mode);
    for (const level of mode.support) {
      open.add(level);
      uses.set(level, uses.get(level)! - 1);
    }
  }
  return order;
}

/**
 * The distinct sets of modes, at most `limit`, each with the state nearest to `near` that shows
 * it. Every set that is begun can be reached, so the work grows with what is listed.
 */
export function listImages(
  compiled: Compiled,
  names: readonly string[],
  near: Positions,
  limit: number,
): { readonly states: readonly DistinctState[]; readonly complete: boolean } {
  const { diagrams, selected } = compiled;
  const found: { on: readonly string[]; reached: number }[] = [];
  let complete = true;
  const visit = (i: number, reached: number, on: readonly string[]): void => {
    if (found.length === limit) {
      complete = false;
      return;
    }
    if (i === names.length) {
      found.push({ on, reached });
      return;
    }
    const set = selected.get(names[i]!)!;
    const without = diagrams.and(reached, diagrams.not(set));
    const having = diagrams.and(reached, set);
    if (without !== NONE) visit(i + 1, without, on);
    if (having !== NONE) visit(i + 1, having, [...on, names[i]!]);
  };
  visit(0, EVERY, []);
  const states = found.map(({ on, reached }) => ({ on, witness: findWitness(compiled, asSet(reached), near)! }));
  return { states, complete };
}
