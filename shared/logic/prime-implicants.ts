/**
 * The prime implicants of a set: conjunctions of demands, one for each variable, that imply the set,
 * and of which no demand can be weakened (Quine, "A Way to Simplify Truth Functions", Amer. Math.
 * Monthly 62, 1955, carried over to many values; from memory). A pilot reads each as a way to turn a
 * mode on.
 */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import type { Fixed } from "./quantify.ts";
import type { Demand, PulseRange, Way, Ways } from "./switchboard-types.ts";
import type { BoardVariable } from "./variables.ts";
import { findImplicant } from "./witness.ts";

/** The allowed values of a level's variable, ascending. A level without a literal is free. */
interface Literal {
  readonly level: number;
  readonly values: readonly number[];
}
/** A conjunction of literals, ascending by level. */
type Cube = readonly Literal[];

/** The budget is divided into at least so many shares, even where a craft has fewer modes. */
const FEWEST_SHARES = 10;

/**
 * At most `limit` prime implicants of a set that is not empty, those with the fewest demands first,
 * and an irredundant cover chosen from them. Their number can be exponential in the number of
 * variables; the search takes at most two shares of `budget.ways`. Over it, the one answer is an
 * implicant near `home`, which need not be prime, and `complete` is false.
 */
export function findPrimeImplicants(compiled: Compiled, set: number, limit: number, home: Fixed): Ways {
  const { ways, all, complete } = coverOf(compiled, set, limit, home);
  const tell = (cube: Cube): Way => ({ demands: demandsOf(compiled, cube) });
  return { ways: ways.map(tell), all: all.map(tell), complete };
}

/**
 * The ways into a set that lead beyond another, as one would tell somebody who knows the other: those of the cover
 * that are not within it, each without the values that only lead into it. Over the budget they are not shortened,
 * and `complete` is false.
 */
export function findWaysBeyond(compiled: Compiled, set: number, known: number, limit: number, home: Fixed) {
  const { diagrams } = compiled;
  const cover = coverOf(compiled, set, limit, home);
  const shortened = diagrams.withBudget(shareOf(compiled), () =>
    cover.ways
      .filter((cube) => !isSubset(diagrams, cubeSet(diagrams, cube), known))
      .map((cube) => cube.reduce((left, _, at) => withoutKnown(diagrams, left, at, known), cube)),
  );
  const ways = (shortened ?? cover.ways).map((cube): Way => ({ demands: demandsOf(compiled, cube) }));
  return { ways, complete: cover.complete && shortened !== null };
}

/** A cube whose literal at an index has no value with which all of it is in a set. */
function withoutKnown(diagrams: Diagrams, cube: Cube, at: number, known: number): Cube {
  const { level, values } = cube[at]!;
  const withValues = (some: readonly number[]): Cube =>
    cube.map((each, i) => (i === at ? { level, values: some } : each));
  const left = values.filter((value) => !isSubset(diagrams, cubeSet(diagrams, withValues([value])), known));
  return left.length === 0 ? cube : withValues(left);
}

function shareOf({ budget, names }: Compiled): number {
  return budget.ways / Math.max(FEWEST_SHARES, names.references.size);
}

function coverOf(compiled: Compiled, set: number, limit: number, home: Fixed) {
  const { diagrams } = compiled;
  const search = { limit, complete: true };
  const share = shareOf(compiled);
  const found = diagrams.withBudget(share, () => primesOf(diagrams, set, search, new Map()));
  const primes = found ?? [cubeNear(compiled, set, home)];
  const complete = found !== null && search.complete && primes.length <= limit;
  const all = simplestFirst(primes).slice(0, limit);
  // A redundant prime implicant is a valid answer too, so over the budget none is removed.
  const ways = (complete && diagrams.withBudget(share, () => irredundant(diagrams, all, set))) || all;
  return { ways, all, complete };
}

/**
 * The prime implicants of a node, by recursion over its variable. A cube of a literal with the
 * values S and a remainder is prime if and only if the remainder is prime in the intersection of the
 * children of S, and is contained in the child of no other value. So every intersection of children
 * is considered, together with all values whose children contain it.
 */
function primesOf(
  diagrams: Diagrams,
  node: number,
  search: { readonly limit: number; complete: boolean },
  memo: Map<number, readonly Cube[]>,
): readonly Cube[] {
  if (node === NONE) return [];
  if (node === EVERY) return [[]];
  const earlier = memo.get(node);
  if (earlier) return earlier;
  const level = diagrams.levelOf(node);
  const width = diagrams.widths[level]!;
  diagrams.spendSteps(1 + (width >> 4));
  const children = Array.from({ length: width }, (_, value) => diagrams.child(node, value));
  const cubes: Cube[] = [];
  for (const part of intersections(diagrams, children)) {
    const values: number[] = [];
    const others: number[] = [];
    children.forEach((child, value) => {
      if (isSubset(diagrams, part, child)) values.push(value);
      else others.push(child);
    });
    for (const rest of primesOf(diagrams, part, search, memo)) {
      const restSet = cubeSet(diagrams, rest);
      if (others.some((child) => isSubset(diagrams, restSet, child))) continue;
      cubes.push(values.length === width ? rest : [{ level, values }, ...rest]);
      if (cubes.length > search.limit) search.complete = false;
      if (!search.complete) break;
    }
    if (!search.complete) break;
  }
  memo.set(node, cubes);
  return cubes;
}

/** The intersections of one or more children, without the empty set; up to 2^width of them. */
function intersections(diagrams: Diagrams, children: readonly number[]): ReadonlySet<number> {
  const parts = new Set<number>();
  for (const child of new Set(children)) {
    for (const part of [...parts, EVERY]) {
      const common = diagrams.and(part, child);
      if (common !== NONE) parts.add(common);
      diagrams.spend(diagrams.levelOf(child));
    }
  }
  return parts;
}

function cubeNear(compiled: Compiled, set: number, home: Fixed): Cube {
  const implicant = [...findImplicant(compiled, set, home)].sort(([a], [b]) => a - b);
  return implicant.map(([level, value]) => ({ level, values: [value] }));
}

function isSubset(diagrams: Diagrams, inner: number, outer: number): boolean {
  return !diagrams.meet(inner, diagrams.not(outer));
}

function cubeSet(diagrams: Diagrams, cube: Cube): number {
  let node = EVERY;
  for (let i = cube.length - 1; i >= 0; i--) {
    const { level, values } = cube[i]!;
    diagrams.spend(level);
    const children = new Array<number>(diagrams.widths[level]!).fill(NONE);
    for (const value of values) children[value] = node;
    node = diagrams.make(level, children);
  }
  return node;
}

/** Sorts cubes by fewest literals, then by most allowed values; ties keep their order. */
function simplestFirst(cubes: readonly Cube[]): readonly Cube[] {
  const freedom = (cube: Cube): number => cube.reduce((sum, { values }) => sum + values.length, 0);
  return [...cubes].sort((a, b) => a.length - b.length || freedom(b) - freedom(a));
}

/** An irredundant cover: removes, the longest first, every cube that the union of the others contains. */
function irredundant(diagrams: Diagrams, cubes: readonly Cube[], set: number): readonly Cube[] {
  const kept = cubes.map((cube) => ({ cube, set: cubeSet(diagrams, cube) }));
  for (let i = kept.length - 1; i >= 0; i--) {
    const others = kept.reduce((sum, each, j) => (j === i ? sum : diagrams.or(sum, each.set)), NONE);
    if (others === set) kept.splice(i, 1);
  }
  return kept.map(({ cube }) => cube);
}

function demandsOf(compiled: Compiled, cube: Cube): readonly Demand[] {
  const { indexOf, byLevel } = compiled;
  const inOrder = [...cube].sort((a, b) => indexOf[a.level]! - indexOf[b.level]!);
  return inOrder.map(({ level, values }) => demandOf(byLevel[level]!, values));
}

function demandOf(variable: BoardVariable, values: readonly number[]): Demand {
  const intervals = values.map((value) => variable.intervals[value]!);
  const positions = intervals.flatMap(({ position }) => position ?? []);
  if (positions.length > 0) return { variable, positions, pulses: [] };
  const pulses: PulseRange[] = [];
  for (const { fromUs, toUs } of intervals) {
    const last = pulses.at(-1);
    if (last && last.toUs === fromUs - 1) pulses[pulses.length - 1] = { fromUs: last.fromUs, toUs };
    else pulses.push({ fromUs, toUs });
  }
  return { variable, positions: [], pulses };
}
