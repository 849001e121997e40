/** States that show something, in the handset's own words, and the fewest moves to one. */
import type { Compiled } from "./compile.ts";
import { EVERY, NONE } from "./diagram.ts";
import { type Fixed, holdsGiven } from "./quantify.ts";
import { fixPositions, middleUs, nameOfValue } from "./sets.ts";
import type { Move, Positions, Witness } from "./switchboard-types.ts";

/** Every switch, selector and button at its rest. */
export function restPositions(compiled: Compiled): Positions {
  const rest: Record<string, string> = {};
  for (const { control } of compiled.variables) if (control?.rest) rest[control.name] = control.rest;
  return rest;
}

/**
 * The state of a set that has the fewest variables away from `near`; what `near` does not name
 * may be anywhere. Of equals the first, in the order of positions; of stretches of a dial or
 * channel the widest, and the middle of it. Null for the empty set. `home` is `near` as values,
 * for who has it at hand.
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
  // What is not named is told only where the set hangs on it once the rest is in place.
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

/** A value for every level, on a cheapest path through the diagram; levels that it skips stay at home. */
function nearestValues(compiled: Compiled, set: number, home: Fixed): Fixed {
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
  for (let level = 0; level < values.length; level++)
    if (values[level]! < 0) values[level] = preferredValue(level, () => true);
  for (let node = set; node !== EVERY; ) {
    const level = diagrams.levelOf(node);
    const at = node;
    const best = costOf(at);
    const cheapest = (v: number): boolean => stepCost(level, v) + costOf(diagrams.child(at, v)) === best;
    const stay = home[level]!;
    const value = stay >= 0 && cheapest(stay) ? stay : preferredValue(level, cheapest);
    values[level] = value;
    node = diagrams.child(node, value);
  }
  return values;

  /** The first position that will do, or the widest stretch. */
  function preferredValue(level: number, does: (value: number) => boolean): number {
    const { intervals, rangeUs } = byLevel[level]!;
    let best = -1;
    for (let v = 0; v < intervals.length; v++) {
      if (!does(v)) continue;
      if (best < 0) best = v;
      else if (rangeUs && intervals[v]!.toUs - intervals[v]!.fromUs > intervals[best]!.toUs - intervals[best]!.fromUs)
        best = v;
    }
    return best;
  }
}

/**
 * The pulses of dials and undriven channels: as they are in `near` where that does, else the
 * middle of the longest stretch about the chosen one that stays in the set.
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

/** Levels whose values already suffice for the set; channels nobody drives are dropped first. */
function neededLevels(compiled: Compiled, set: number, values: Fixed): ReadonlySet<number> {
  const { diagrams, levelOf, variables } = compiled;
  // Only what the way through the diagram asks can be needed.
  const asked = new Int32Array(values.length).fill(-1);
  for (let node = set; node > EVERY; ) {
    const level = diagrams.levelOf(node);
    asked[level] = values[level]!;
    node = diagrams.child(node, values[level]!);
  }
  const order: number[] = [];
  for (let i = variables.length - 1; i >= 0; i--) {
    const level = levelOf[i]!;
    if (asked[level]! >= 0) order.push(level);
  }
  return withoutRedundant(compiled, set, asked, order);
}

/**
 * Of these levels, those on which the set still hangs once each in turn was set free where it could
 * be; where looking takes more work than is allowed, all that are left are taken for such.
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
