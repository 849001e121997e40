/** Compiles conditions, as syntax trees, into decision diagrams. */
import { type Condition, walkCondition } from "../syntax/condition.ts";
import type { WorkBudget } from "./budget.ts";
import { type DependencyOrder, dependencyOrder } from "./dependency-order.ts";
import { type Diagrams, EVERY, makeDiagrams, NONE } from "./diagram.ts";
import { type Names, readNames } from "./names.ts";
import { spendOnNodes } from "./quantify.ts";
import type { SwitchInput } from "./switchboard-types.ts";
import { forceOrder, mentionOrder } from "./variable-order.ts";
import {
  type BoardVariable,
  type ChannelLimits,
  channelVariable,
  controlVariable,
  type PulseInterval,
  passes,
} from "./variables.ts";

export interface Compiled extends Pick<DependencyOrder, "cycles"> {
  readonly names: Names;
  /** Controls in the handset's order, then undriven channels by number. */
  readonly variables: readonly BoardVariable[];
  readonly diagrams: Diagrams;
  /** The level of a variable, by its name. */
  readonly levels: ReadonlyMap<string, number>;
  /** The level of each variable, in the order of `variables`. */
  readonly levelOf: readonly number[];
  /** The variable of each level; the inverse of `levelOf`. */
  readonly byLevel: readonly BoardVariable[];
  /** The index in `variables` of each level's variable. */
  readonly indexOf: readonly number[];
  /** The set of each mode and output; without those whose condition is not known. */
  readonly selected: ReadonlyMap<string, number>;
  /** The set of each line of the conditions that are known. */
  readonly lineSets: ReadonlyMap<Condition, number>;
  /** For each mode and output over the budget: the name whose condition exceeded it, its own or that of a mode on which it depends. */
  readonly tangles: ReadonlyMap<string, string>;
  readonly budget: WorkBudget;
  /** Whether some condition exceeded its steps, so that another variable order may help. */
  readonly exceeded: boolean;
}

interface Parts extends DependencyOrder {
  readonly input: SwitchInput;
  readonly pulsesUs: ReadonlyMap<number, number>;
  readonly budget: WorkBudget;
  readonly names: Names;
  readonly variables: readonly BoardVariable[];
}

/**
 * Compiles every condition; never throws. `pulsesUs` has the channels whose pulse is given, whatever
 * the position of their control. If the budget does not suffice for all conditions, they are compiled
 * again with a second variable order, and the result with fewer unknown conditions is kept; so at
 * most twice the budget is spent. `base` is the result without given pulses: its variable order is
 * reused, and conditions over the budget there are not tried again.
 */
export function compile(
  input: SwitchInput,
  pulsesUs: ReadonlyMap<number, number>,
  budget: WorkBudget,
  base?: Compiled,
): Compiled {
  const names = readNames(input, pulsesUs);
  const carried = (channel: number): ChannelLimits => ({
    pulseUs: pulsesUs.get(channel),
    twoLevel: input.twoLevelChannels?.includes(channel) === true,
  });
  const variables = [
    ...input.controls.map((c) => controlVariable(c, names.cuts.get(c.name) ?? [], carried(c.channel))),
    ...names.channels.map((ch) => {
      const endsUs = input.measuredUs?.get(ch) ?? input.endpointsUs;
      return channelVariable(ch, endsUs, names.cuts.get(`ch${ch}`) ?? [], carried(ch));
    }),
  ];
  const parts: Parts = { input, pulsesUs, budget, names, variables, ...dependencyOrder(names.references) };
  if (base)
    return compileIn(
      parts,
      base.byLevel.map(({ name }) => name),
      base.tangles,
    );
  const byMention = mentionOrder(input, names, variables);
  const first = compileIn(parts, byMention, new Map());
  if (!first.exceeded) return first;
  const second = compileIn(parts, forceOrder(input, names, byMention), new Map());
  return second.tangles.size < first.tangles.size ? second : first;
}

/** Compiles with the variables in this order; names without a variable are skipped. */
function compileIn(parts: Parts, levelNames: readonly string[], knownTangles: ReadonlyMap<string, string>): Compiled {
  const { input, pulsesUs, budget, names, variables, order, cycles } = parts;
  const byName = new Map(variables.map((variable) => [variable.name, variable]));
  const byLevel = levelNames.flatMap((name) => byName.get(name) ?? []);
  const levels = new Map(byLevel.map((variable, level) => [variable.name, level]));
  const levelOf = variables.map(({ name }) => levels.get(name)!);
  const indexOf = byLevel.map(() => 0);
  levelOf.forEach((level, i) => {
    indexOf[level] = i;
  });
  const diagrams = makeDiagrams(byLevel.map((variable) => variable.intervals.length));

  const selected = new Map<string, number>();
  const lineSets = new Map<Condition, number>();
  const tangles = new Map(knownTangles);
  const lines = new Map(input.conditions.map((spec) => [spec.name, spec.lines]));
  const mostSteps = Math.min(budget.craftAtMost, budget.craft + budget.test * countTests(input));
  // A condition that exceeded its share gets a second try with what the others left over.
  let exceeded = false;
  const left = compileEach(order.filter((name) => !knownTangles.has(name) && !names.broken.has(name)));
  exceeded = false;
  for (const name of compileEach(left)) tangleOf(name);
  return {
    names,
    cycles,
    variables,
    diagrams,
    levels,
    levelOf,
    byLevel,
    indexOf,
    selected,
    lineSets,
    tangles,
    budget,
    exceeded,
  };

  /** Compiles each of these whose dependencies are compiled; gives the names of the others. */
  function compileEach(tried: readonly string[]): readonly string[] {
    return tried.filter((name, i) => {
      if (names.references.get(name)!.some(({ to }) => !selected.has(to))) return true;
      if (isTooDeep(name)) return true;
      const share = (mostSteps - diagrams.spent()) / (tried.length - i);
      const compiled = diagrams.withBudget(Math.min(budget.condition, share), () => compileCondition(name));
      if (compiled === null) exceeded = true;
      return compiled === null;
    });
  }

  /** Walks recurse once a level, so the number of levels that conditions may use bounds the stack. */
  function isTooDeep(name: string): boolean {
    const limit = budget.variables;
    return byLevel.length > limit && names.mentions.get(name)!.some((variable) => levels.get(variable)! >= limit);
  }

  /** Blames a condition over the budget, unless a line with a fault is among the reasons: that has a finding of its own. */
  function tangleOf(name: string): void {
    const behind = names.references.get(name)!.filter(({ to }) => !selected.has(to));
    const roots = behind.map(({ to }) => tangles.get(to));
    if (behind.length === 0) tangles.set(name, name);
    else if (roots[0] !== undefined && !roots.includes(undefined)) tangles.set(name, roots[0]);
  }

  function compileCondition(name: string): true {
    // Names with a broken line were filtered out above, so no condition is null.
    const conditions = lines.get(name)!.map(({ condition }) => condition!);
    const sets = conditions.map(build);
    const set = joinBalanced(sets, diagrams.or, NONE);
    // Linear walks over the set are free later, so its size is charged once here.
    spendOnNodes(diagrams, set);
    for (const [i, condition] of conditions.entries()) lineSets.set(condition, sets[i]!);
    selected.set(name, set);
    return true;
  }

  function build(condition: Condition): number {
    switch (condition.kind) {
      case "always":
        return EVERY;
      case "mode":
        return selected.get(condition.name) ?? NONE;
      case "not":
        return diagrams.not(build(condition.part));
      case "and":
        return joinBalanced(condition.parts.map(build), diagrams.and, EVERY);
      case "or":
        return joinBalanced(condition.parts.map(build), diagrams.or, NONE);
      case "is":
        return valuesWhere(
          condition.control,
          (interval) => (interval.position === condition.position) !== condition.negated,
        );
      default:
        return pulsesWhere(condition);
    }
  }

  function pulsesWhere(condition: Extract<Condition, { kind: "in" | "above" | "below" }>): number {
    const { subject } = condition;
    const pulseUs = subject.kind === "channel" ? pulsesUs.get(subject.channel) : undefined;
    if (pulseUs !== undefined) return passes(condition, { fromUs: pulseUs, toUs: pulseUs }) ? EVERY : NONE;
    return valuesWhere(names.variableOf(subject)!, (interval) => passes(condition, interval));
  }

  function valuesWhere(name: string, holds: (interval: PulseInterval) => boolean): number {
    const level = levels.get(name)!;
    diagrams.spend(level);
    return diagrams.make(
      level,
      byLevel[level]!.intervals.map((interval) => (holds(interval) ? EVERY : NONE)),
    );
  }
}

/** Joins sets pairwise in a balanced tree: large intermediate diagrams are then walked less often than from left to right. */
function joinBalanced(sets: readonly number[], join: (a: number, b: number) => number, neutral: number): number {
  if (sets.length <= 2) return sets.reduce(join, neutral);
  const half = sets.length >> 1;
  return join(joinBalanced(sets.slice(0, half), join, neutral), joinBalanced(sets.slice(half), join, neutral));
}

function countTests(input: SwitchInput): number {
  let tests = 0;
  for (const { lines } of input.conditions)
    for (const { condition } of lines) if (condition) for (const _ of walkCondition(condition)) tests++;
  return tests;
}
