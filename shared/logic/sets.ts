/** Operations on sets of states, by the names of controls and positions. */
import type { Compiled } from "./compile.ts";
import { type Diagrams, EVERY, NONE } from "./diagram.ts";
import { cofactor, type Fixed, makeQuantifier, nothingFixed, supportOf } from "./quantify.ts";
import type { Positions, Sets, StateSet } from "./switchboard-types.ts";
import { type BoardVariable, valuesAt } from "./variables.ts";

/** Positions as a value for each level. */
export interface FixedPositions {
  readonly fixed: Fixed;
  /** False where a position or pulse is one that the variable cannot have, so that no state has it. */
  readonly possible: boolean;
}

/** A node of the diagrams as the set that it represents. */
export function asSet(node: number): StateSet {
  return node as StateSet;
}

/** The level of a name: of a control, of an undriven channel, or of the one control that drives a channel. */
function levelOf(compiled: Compiled, name: string): number | undefined {
  const level = compiled.levels.get(name);
  if (level !== undefined || !/^ch\d+$/.test(name)) return level;
  const channel = Number(name.slice(2));
  const drivers = compiled.variables.filter((variable) => variable.channel === channel);
  return drivers.length === 1 ? compiled.levels.get(drivers[0]!.name) : undefined;
}

/** Positions as values of levels. Names without a variable, and positions that do not exist, fix nothing. */
export function fixPositions(compiled: Compiled, positions: Positions): FixedPositions {
  const fixed = nothingFixed(compiled.diagrams);
  let possible = true;
  for (const [name, at] of Object.entries(positions)) {
    const level = levelOf(compiled, name);
    if (level === undefined) continue;
    const values = valuesAt(compiled.byLevel[level]!, at);
    if (values.length === 0) possible = false;
    // A position that may arrive as either of two levels is left free.
    if (values.length === 1) fixed[level] = values[0]!;
  }
  return { fixed, possible };
}

/** The set of all states with these values. */
export function cube(diagrams: Diagrams, fixed: Fixed): number {
  let node = EVERY;
  for (let level = fixed.length - 1; level >= 0; level--) {
    if (fixed[level]! < 0) continue;
    const children = new Array<number>(diagrams.widths[level]!).fill(NONE);
    children[fixed[level]!] = node;
    node = diagrams.make(level, children);
  }
  return node;
}

/** The operations of `Sets` over compiled conditions. */
export function makeSets(compiled: Compiled): Sets {
  const { diagrams, levels, variables, budget } = compiled;
  /** An operation's result; null where it exceeds the budget, or one of the sets is not known. */
  const asked = <T>(sets: readonly (StateSet | null)[], answer: (known: readonly number[]) => T): T | null =>
    sets.includes(null) ? null : diagrams.withBudget(budget.question, () => answer(sets as readonly StateSet[]));
  const marks = (names: readonly string[]): Uint8Array => {
    const marked = new Uint8Array(diagrams.widths.length);
    for (const name of names) {
      const level = levelOf(compiled, name);
      if (level !== undefined) marked[level] = 1;
    }
    return marked;
  };
  return {
    none: asSet(NONE),
    every: asSet(EVERY),
    and: (...sets) => asked(sets, (known) => asSet(known.reduce(diagrams.and, EVERY))),
    or: (...sets) => asked(sets, (known) => asSet(known.reduce(diagrams.or, NONE))),
    not: (set) => asSet(diagrams.not(set)),
    meet: (a, b) => asked([a, b], ([one, other]) => diagrams.meet(one!, other!)),
    within: (a, b) => asked([a, b], ([inner, outer]) => !diagrams.meet(inner!, diagrams.not(outer!))),
    where: (positions) => {
      const { fixed, possible } = fixPositions(compiled, positions);
      return asSet(possible ? cube(diagrams, fixed) : NONE);
    },
    given: (set, positions) => {
      const { fixed, possible } = fixPositions(compiled, positions);
      return asSet(possible ? cofactor(diagrams, set, fixed) : NONE);
    },
    some: (set, names) => asked([set], ([known]) => asSet(makeQuantifier(diagrams, marks(names), diagrams.or)(known!))),
    all: (set, names) => asked([set], ([known]) => asSet(makeQuantifier(diagrams, marks(names), diagrams.and)(known!))),
    dependsOn: (set) => {
      const found = new Set(supportOf(diagrams, set));
      return variables.filter(({ name }) => found.has(levels.get(name)!)).map(({ name }) => name);
    },
  };
}

/** The middle of a range or interval, rounded to whole us unless it is a single pulse. */
export function middleUs(interval: { readonly fromUs: number; readonly toUs: number }): number {
  return interval.fromUs === interval.toUs ? interval.fromUs : Math.round((interval.fromUs + interval.toUs) / 2);
}

/** A variable's value in words: the name of its position, or the middle of its interval in us. */
export function nameOfValue(variable: BoardVariable, value: number): string | number {
  const interval = variable.intervals[value]!;
  return interval.position ?? middleUs(interval);
}
