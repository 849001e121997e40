/** From conditions as written to sets of states. */
import { type Condition, walkCondition } from "../syntax/condition.ts";
import type { WorkBudget } from "./budget.ts";
import { type DependencyOrder, dependencyOrder } from "./dependency-order.ts";
import { type Diagrams, EVERY, makeDiagrams, NONE } from "./diagram.ts";
import { type Names, readNames, testedVariable } from "./names.ts";
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
  /** The level of a variable's name. */
  readonly levels: ReadonlyMap<string, number>;
  /** The level of each variable. */
  readonly levelOf: readonly number[];
  /** The variable of each level. */
  readonly byLevel: readonly BoardVariable[];
  /** Set by name; a name whose condition is not known has none. */
  readonly selected: ReadonlyMap<string, number>;
  /** Of those whose condition is known: the set of each line. */
  readonly lineSets: ReadonlyMap<Condition, number>;
  /** By name of what is not known for that reason: whose condition is too tangled, its own or that of a mode that it depends on. */
  readonly tangles: ReadonlyMap<string, string>;
  readonly budget: WorkBudget;
}

interface Parts extends DependencyOrder {
  readonly input: SwitchInput;
  readonly pulsesUs: ReadonlyMap<number, number>;
  readonly budget: WorkBudget;
  readonly names: Names;
  readonly variables: readonly BoardVariable[];
}

/**
 * Understands every condition; `pulsesUs` are channels whose pulse is given, wherever their control
 * stands. Where the budget does not do for all of them, a second order of the variables is tried,
 * and the one taken that leaves less unknown. `base` is the same without given pulses: its order
 * serves, and what is too tangled there is not begun.
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
  if (first.tangles.size === 0) return first;
  const second = compileIn(parts, forceOrder(input, names, byMention), new Map());
  return second.tangles.size < first.tangles.size ? second : first;
}

/** With the variables in this order; names that there are not count for nothing. */
function compileIn(parts: Parts, levelNames: readonly string[], knownTangles: ReadonlyMap<string, string>): Compiled {
  const { input, pulsesUs, budget, names, variables, order, cycles } = parts;
  const byName = new Map(variables.map((variable) => [variable.name, variable]));
  const byLevel = levelNames.flatMap((name) => byName.get(name) ?? []);
  const levels = new Map(byLevel.map((variable, level) => [variable.name, level]));
  const levelOf = variables.map(({ name }) => levels.get(name)!);
  const diagrams = makeDiagrams(byLevel.map((variable) => variable.intervals.length));

  const selected = new Map<string, number>();
  const lineSets = new Map<Condition, number>();
  const tangles = new Map(knownTangles);
  const lines = new Map(input.conditions.map((spec) => [spec.name, spec.lines]));
  const mostSteps = Math.min(budget.craftAtMost, budget.craft + budget.test * countTests(input));
  // Those for which a share did not do have what the others leave.
  const left = compileEach(order.filter((name) => !knownTangles.has(name) && !names.broken.has(name)));
  for (const name of compileEach(left)) tangleOf(name);
  return {
    names,
    cycles,
    variables,
    diagrams,
    levels,
    levelOf,
    byLevel,
    selected,
    lineSets,
    tangles,
    budget,
  };

  /** Understands each of these that depends on none that is not understood; gives the others. */
  function compileEach(tried: readonly string[]): readonly string[] {
    return tried.filter((name, i) => {
      if (names.references.get(name)!.some(({ to }) => !selected.has(to))) return true;
      const share = (mostSteps - diagrams.spent()) / (tried.length - i);
      return diagrams.withBudget(Math.min(budget.condition, share), () => compileCondition(name)) === null;
    });
  }

  /** Of a line with a fault another finding speaks, and it comes first. */
  function tangleOf(name: string): void {
    const behind = names.references.get(name)!.filter(({ to }) => !selected.has(to));
    const roots = behind.map(({ to }) => tangles.get(to));
    if (behind.length === 0) tangles.set(name, name);
    else if (roots[0] !== undefined && !roots.includes(undefined)) tangles.set(name, roots[0]);
  }

  function compileCondition(name: string): true {
    // A broken line has been sorted out above, so every condition is there.
    const conditions = lines.get(name)!.map(({ condition }) => condition!);
    const sets = conditions.map(build);
    const set = joinBalanced(sets, diagrams.or, NONE);
    // All that is asked of the set later goes through it at least once.
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
    return valuesWhere(testedVariable(subject, names.controls, input)!, (interval) => passes(condition, interval));
  }

  function valuesWhere(name: string, holds: (interval: PulseInterval) => boolean): number {
    const level = levels.get(name)!;
    diagrams.spend(level);
    // Walks go one call deeper with each level.
    if (level >= budget.variables) diagrams.giveUp();
    return diagrams.make(
      level,
      byLevel[level]!.intervals.map((interval) => (holds(interval) ? EVERY : NONE)),
    );
  }
}

/** Two halves, each joined in the same way: what grows large is gone through seldom. */
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
