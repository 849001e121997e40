/** Finds a state of a set near some positions, the part of it that suffices, and the fewest moves to it. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import { type Fixed, holdsGiven } from "./quantify.ts";
import { fixPositions, middleUs, nameOfValue } from "./sets.ts";
import type { Move, Positions, Witness } from "./switchboard-types.ts";
import type { BoardVariable } from "./variables.ts";

/** The rest position of every switch, selector and button. */
export function restPositions(compiled: Compiled): Positions {
  const rest: Record<string, string> = {};
  for (const { control } of compiled.variables) if (control?.rest) rest[control.name] = control.rest;
  return rest;
}

/**
 * A state of a set with the fewest variables away from `near`; variables that `near` does not name
 * cost nothing. Among equal ones the first in the order of positions; for a dial or channel the
 * widest interval, and its middle. Null for the empty set. Linear in the set for the state itself;
 * reducing it to the needed part takes at most `budget.question` steps. `home` is `near` as values,
 * for callers that have them.
 */
export function findWitness(
  compiled: Compiled,
  set: number,
  near: Positions,
  home: Fixed = fixPositions(compiled, near).fixed,
): Witness | null {
  if (set === NONE) return null;
  const { levelOf, variables } = compiled;
  const values = nearestValues(compiled, set, home);
  const positions: Record<string, string | number> = {};
  const pulses = choosePulses(compiled, set, values, home, near);
  for (const [i, variable] of variables.entries()) {
    const level = levelOf[i]!;
    const pulseUs = pulses.get(level);
    positions[variable.name] = pulseUs ?? nameOfValue(variable, values[level]!);
  }
  const needed: Record<string, string | number> = {};
  const kept = neededLevels(compiled, set, values);
  variables.forEach(({ name }, i) => {
    if (kept.has(levelOf[i]!)) needed[name] = positions[name]!;
  });
  return { positions, needed };
}

/** The fewest moves from these positions into a set, in the board's order; null for the empty set. */
export function findMoves(compiled: Compiled, set: number, from: Positions): readonly Move[] | null {
  const witness = findWitness(compiled, set, from);
  if (!witness) return null;
  const { fixed } = fixPositions(compiled, from);
  const target = fixPositions(compiled, witness.positions).fixed;
  // A variable that is not named is listed only if the set still depends on it.
  const open = compiled.variables.filter(({ name }) => fixed[compiled.levels.get(name)!]! < 0);
  const needed = withoutRedundant(
    compiled,
    set,
    target,
    open.map(({ name }) => compiled.levels.get(name)!),
  );
  const moves: Move[] = [];
  for (const variable of compiled.variables) {
    const level = compiled.levels.get(variable.name)!;
    const to = witness.positions[variable.name]!;
    if (fixed[level]! < 0) {
      if (needed.has(level)) moves.push({ name: variable.name, from: from[variable.name] ?? null, to });
    } else if (fixed[level] !== target[level]) {
      const interval = variable.intervals[fixed[level]!]!;
      moves.push({ name: variable.name, from: from[variable.name] ?? interval.position ?? middleUs(interval), to });
    }
  }
  return moves;
}

/** An implicant of a set that is not empty, near `home`: levels and values that suffice to be in it. Linear in the set. */
export function findImplicant(compiled: Compiled, set: number, home: Fixed): ReadonlyMap<number, number> {
  const values = cheapestPath(compiled, set, home);
  return new Map([...neededLevels(compiled, set, values)].map((level) => [level, values[level]!]));
}

/** A value for every level: those of a cheapest path, and for levels that are free in it too the preferred ones. */
function nearestValues(compiled: Compiled, set: number, home: Fixed): Fixed {
  const values = cheapestPath(compiled, set, home);
  for (let level = 0; level < values.length; level++)
    if (values[level]! < 0) values[level] = preferredValue(compiled.byLevel[level]!, () => true);
  return values;
}

/** The values of `home`, changed on a path through the diagram to 1 on which the fewest of them change. */
function cheapestPath(compiled: Compiled, set: number, home: Fixed): Fixed {
  const { diagrams, byLevel } = compiled;
  const costs = new Map<number, number>([
    [NONE, Number.POSITIVE_INFINITY],
    [EVERY, 0],
  ]);
  const stepCost = (level: number, value: number): number => (home[level]! < 0 || home[level] === value ? 0 : 1);
  const costOf = (node: number): number => {
    const known = costs.get(node);
    if (known !== undefined) return known;
    const level = diagrams.levelOf(node);
    let best = Number.POSITIVE_INFINITY;
    for (let v = 0; v < diagrams.widths[level]!; v++) {
      best = Math.min(best, stepCost(level, v) + costOf(diagrams.child(node, v)));
    }
    costs.set(node, best);
    return best;
  };
  const values = home.slice();
  for (let node = set; node !== EVERY; ) {
    const level = diagrams.levelOf(node);
    const at = node;
    const best = costOf(at);
    const cheapest = (v: number): boolean => stepCost(level, v) + costOf(diagrams.child(at, v)) === best;
    const stay = home[level]!;
    const value = stay >= 0 && cheapest(stay) ? stay : preferredValue(byLevel[level]!, cheapest);
    values[level] = value;
    node = diagrams.child(node, value);
  }
  return values;
}

/** The first admissible position, or the widest admissible interval. */
function preferredValue({ intervals, rangeUs }: BoardVariable, isAdmissible: (value: number) => boolean): number {
  const width = (value: number): number => intervals[value]!.toUs - intervals[value]!.fromUs;
  let best = -1;
  for (let v = 0; v < intervals.length; v++) {
    if (isAdmissible(v) && (best < 0 || (rangeUs && width(v) > width(best)))) best = v;
  }
  return best;
}

/**
 * The pulses of dials and undriven channels: those of `near` where they are in the chosen interval,
 * else the middle of the longest run of intervals around it that stays in the set.
 */
function choosePulses(
  compiled: Compiled,
  set: number,
  values: Fixed,
  home: Fixed,
  near: Positions,
): Map<number, number> {
  const { diagrams, levelOf, variables } = compiled;
  const holds = (level: number, value: number): boolean => {
    const before = values[level]!;
    values[level] = value;
    const inside = holdsGiven(diagrams, set, values);
    values[level] = before;
    return inside;
  };
  const pulses = new Map<number, number>();
  for (const [i, { name, intervals, rangeUs }] of variables.entries()) {
    if (!rangeUs) continue;
    const level = levelOf[i]!;
    const value = values[level]!;
    const at = near[name];
    if (home[level] === value && typeof at === "number") {
      pulses.set(level, Math.min(Math.max(Math.round(at), intervals[value]!.fromUs), intervals[value]!.toUs));
      continue;
    }
    let first = value;
    let last = value;
    while (first > 0 && holds(level, first - 1)) first--;
    while (last < intervals.length - 1 && holds(level, last + 1)) last++;
    const pulseUs = middleUs({ fromUs: intervals[first]!.fromUs, toUs: intervals[last]!.toUs });
    values[level] = intervals.findIndex((interval) => interval.fromUs <= pulseUs && pulseUs <= interval.toUs);
    pulses.set(level, pulseUs);
  }
  return pulses;
}

/** Levels whose values suffice to be in the set; undriven channels are dropped first. */
function neededLevels(compiled: Compiled, set: number, values: Fixed): ReadonlySet<number> {
  const { diagrams, indexOf } = compiled;
  // Only levels that the path through the diagram tests can be needed.
  const asked = new Int32Array(values.length).fill(-1);
  const order: number[] = [];
  for (let node = set; node > EVERY; ) {
    const level = diagrams.levelOf(node);
    asked[level] = values[level]!;
    order.push(level);
    node = diagrams.child(node, values[level]!);
  }
  order.sort((a, b) => indexOf[b]! - indexOf[a]!);
  return withoutRedundant(compiled, set, asked, order);
}

/**
 * The levels that remain after each in turn was freed where the set allows it. Those not examined
 * when `budget.question` is used up all remain.
 */
function withoutRedundant(
  compiled: Compiled,
  set: number,
  values: Fixed,
  order: readonly number[],
): ReadonlySet<number> {
  const { diagrams, budget } = compiled;
  const left = values.slice();
  const kept = new Set<number>();
  const end = diagrams.spent() + budget.question;
  for (const level of order) {
    left[level] = -1;
    if (diagrams.withBudget(end - diagrams.spent(), () => holdsGiven(diagrams, set, left)) === true) continue;
    left[level] = values[level]!;
    kept.add(level);
  }
  return kept;
}
