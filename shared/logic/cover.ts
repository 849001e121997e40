/** The fewest of some sets whose union is a set: as few lines as a board needs to hold a condition. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import type { ChosenCover, CoverWish, StateSet } from "./switchboard-types.ts";

type Diagrams = Compiled["diagrams"];

/** Up to this number of sets the fewest are found for certain. */
export const MOST_PROVEN = 12;

/**
 * The fewest of some sets whose union is a set: by branch and bound up to `MOST_PROVEN` of them, else those that
 * alone have some state, then one after another that with most of what is left, less what turned out to be
 * needless. Null where the union of all is another set, `wish` accepts no cover, or it exceeds `budget.question`.
 */
export function findCover(
  compiled: Compiled,
  target: number,
  candidates: readonly StateSet[],
  wish: CoverWish,
): ChosenCover | null {
  const { diagrams, budget } = compiled;
  return diagrams.withBudget(budget.question, () => {
    if (candidates.reduce<number>(diagrams.or, NONE) !== target) return null;
    return candidates.length <= MOST_PROVEN
      ? fewestOf(compiled, target, candidates, wish)
      : fewOf(compiled, target, candidates, wish);
  });
}

/** Branch and bound: one of the sets with a state that is not covered yet must be taken, so each of them is tried. */
function fewestOf(
  { diagrams }: Compiled,
  target: number,
  candidates: readonly number[],
  wish: CoverWish,
): ChosenCover | null {
  let best: { readonly indexes: readonly number[]; readonly cost: number } | null = null;
  const search = (left: number, chosen: readonly number[], cost: number, refused: ReadonlySet<number>): void => {
    if (best && (chosen.length > best.indexes.length || (chosen.length === best.indexes.length && cost >= best.cost)))
      return;
    if (left === NONE) {
      const indexes = [...chosen].sort((a, b) => a - b);
      if (wish.accept(indexes)) best = { indexes, cost };
      return;
    }
    if (best && chosen.length >= best.indexes.length) return;
    const values = someValues(diagrams, left);
    const tried = new Set(refused);
    for (const [i, candidate] of candidates.entries()) {
      if (tried.has(i) || !hasValues(diagrams, candidate, values)) continue;
      search(diagrams.and(left, diagrams.not(candidate)), [...chosen, i], cost + wish.cost(i), tried);
      // Covers with this one were all seen; the state must come from another.
      tried.add(i);
    }
  };
  search(target, [], 0, new Set());
  const found = best as { readonly indexes: readonly number[] } | null;
  return found && { indexes: found.indexes, proven: true };
}

function fewOf(
  { diagrams }: Compiled,
  target: number,
  candidates: readonly number[],
  wish: CoverWish,
): ChosenCover | null {
  const shares = new Map<number, number>();
  const unionOf = (indexes: Iterable<number>): number =>
    [...indexes].reduce((union, i) => diagrams.or(union, candidates[i]!), NONE);
  const all = candidates.map((_, i) => i);
  const chosen = new Set(all.filter((i) => unionOf(all.filter((other) => other !== i)) !== target));
  let left = diagrams.and(target, diagrams.not(unionOf(chosen)));
  while (left !== NONE) {
    let most = { i: -1, gain: -1, cost: 0 };
    for (const i of all) {
      if (chosen.has(i)) continue;
      const gain = shareOf(diagrams, diagrams.and(left, candidates[i]!), shares);
      const cost = wish.cost(i);
      if (gain > most.gain || (gain === most.gain && cost < most.cost)) most = { i, gain, cost };
    }
    chosen.add(most.i);
    left = diagrams.and(left, diagrams.not(candidates[most.i]!));
  }
  for (const i of [...chosen].reverse())
    if (unionOf([...chosen].filter((other) => other !== i)) === target) chosen.delete(i);
  const indexes = [...chosen].sort((a, b) => a - b);
  return wish.accept(indexes) ? { indexes, proven: false } : null;
}

/** The values of a state of a set that is not empty, by level; -1 where any will do. */
function someValues(diagrams: Diagrams, set: number): Int32Array {
  const values = new Int32Array(diagrams.widths.length).fill(-1);
  for (let node = set; node !== EVERY; ) {
    const level = diagrams.levelOf(node);
    let value = 0;
    while (diagrams.child(node, value) === NONE) value++;
    values[level] = value;
    node = diagrams.child(node, value);
  }
  return values;
}

/** Whether a set has the state with these values, and 0 where any will do: one state, however a set divides the rest. */
function hasValues(diagrams: Diagrams, set: number, values: Int32Array): boolean {
  let node = set;
  while (node > EVERY) node = diagrams.child(node, Math.max(0, values[diagrams.levelOf(node)]!));
  return node === EVERY;
}

/** The share of all states that a set has, each value of a variable counted alike. */
function shareOf(diagrams: Diagrams, node: number, known: Map<number, number>): number {
  if (node <= EVERY) return node;
  const before = known.get(node);
  if (before !== undefined) return before;
  const level = diagrams.levelOf(node);
  diagrams.spend(level);
  const width = diagrams.widths[level]!;
  let sum = 0;
  for (let value = 0; value < width; value++) sum += shareOf(diagrams, diagrams.child(node, value), known);
  known.set(node, sum / width);
  return sum / width;
}
