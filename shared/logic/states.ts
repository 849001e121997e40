/** The distinct sets of modes that the controls can reach: how many, and which. */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import { lineUp } from "./line-up.ts";
import { classesOf, makeBlur, meetClasses, supportOf } from "./quantify.ts";
import type { DistinctState, Witness } from "./types.ts";

interface Mode {
  readonly set: number;
  readonly support: readonly number[];
}

/**
 * How many distinct lists of yes and no the sets give over the states of `within`.
 *
 * Sets that share no variable, however indirectly, are counted apart and multiplied. Within such a
 * group one set after another is decided both ways. Values between which no set still to come
 * tells are made alike, which takes a variable out once nothing asks it (bucket elimination), and
 * equal remains are counted once. Exact up to 2^53.
 */
export function countImages(diagrams: Diagrams, sets: readonly number[], within: number = EVERY): number {
  if (within === NONE) return 0;
  const restriction: Mode = { set: within, support: supportOf(diagrams, within) };
  let total = 1;
  for (const group of groupsOf(diagrams, distinct(diagrams, sets), restriction)) {
    const restricted = group.some(({ support }) => support.some((level) => restriction.support.includes(level)));
    total *= countGroup(diagrams, group, restricted ? within : EVERY);
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

function countGroup(diagrams: Diagrams, modes: readonly Mode[], within: number): number {
  const order = inGoodOrder(diagrams, modes);
  const blurs = blursOf(diagrams, order);
  const opposites = order.map(({ set }) => diagrams.not(set));
  const known = order.map(() => new Map<number, number>());
  const count = (step: number, reached: number): number => {
    if (reached === NONE) return 0;
    if (step === order.length) return 1;
    const told = blurs[step]!(reached);
    const earlier = known[step]!.get(told);
    if (earlier !== undefined) return earlier;
    const result =
      count(step + 1, diagrams.and(told, order[step]!.set)) + count(step + 1, diagrams.and(told, opposites[step]!));
    known[step]!.set(told, result);
    return result;
  };
  return count(0, within);
}

/** Each set as soon as all its variables have had their turn, so that few variables are open at any time. */
function inGoodOrder(diagrams: Diagrams, modes: readonly Mode[]): readonly Mode[] {
  const turns = new Map(
    lineUp(
      modes.map(({ support }) => support),
      (level) => Math.log(diagrams.widths[level]!),
    ).map((level, turn) => [level, turn]),
  );
  const lastTurn = ({ support }: Mode): number => Math.max(...support.map((level) => turns.get(level)!));
  const sorted = modes.map((mode) => ({ mode, turn: lastTurn(mode) })).sort((a, b) => a.turn - b.turn);
  return sorted.map(({ mode }) => mode);
}

/** For each step, what makes alike all values between which no set from there on tells. */
function blursOf(diagrams: Diagrams, order: readonly Mode[]): readonly ((set: number) => number)[] {
  const told: Uint8Array[] = diagrams.widths.map((width) => new Uint8Array(width));
  const blurs = order.toReversed().map(({ set }) => {
    classesOf(diagrams, set).forEach((classes, level) => {
      if (classes) told[level] = meetClasses(told[level]!, classes);
    });
    return makeBlur(
      diagrams,
      told.map((classes) => (classes.every((each, value) => each === value) ? null : classes)),
    );
  });
  return blurs.reverse();
}

/**
 * The distinct sets of modes, at most `limit`, each with the state that `show` picks for it. Every set that is begun can be reached, so the work grows with what is listed.
 */
export function listImages(
  compiled: Compiled,
  names: readonly string[],
  show: (set: number) => Witness | null,
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
  const states = found.map(({ on, reached }) => ({ on, witness: show(reached)! }));
  return { states, complete };
}
