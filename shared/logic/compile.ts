/** From conditions as written to sets of states. */
import { type Condition, walkCondition } from "../syntax/condition.ts";
import { type Diagrams, EVERY, makeDiagrams, NONE } from "./diagram.ts";
import { type Names, readNames, testedVariable } from "./names.ts";
import { orderNames } from "./order.ts";
import type { Cycle, SwitchInput } from "./types.ts";
import { type BoardVariable, type Carried, type Cell, channelVariable, controlVariable, passes } from "./variables.ts";

export interface Compiled {
  readonly names: Names;
  readonly cycles: readonly Cycle[];
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
  /** The set of one condition; null where it names something whose set is not known. */
  setOf(condition: Condition): number | null;
}

/** Understands every condition; `pulsesUs` are channels whose pulse is given, wherever their control stands. */
export function compile(input: SwitchInput, pulsesUs: ReadonlyMap<number, number>): Compiled {
  const names = readNames(input, pulsesUs);
  const { order, cycles } = orderNames(names.references);
  const carried = (channel: number): Carried => ({
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
  const byLevel = levelOrder(input, names, variables);
  const levels = new Map(byLevel.map((variable, level) => [variable.name, level]));
  const levelOf = variables.map(({ name }) => levels.get(name)!);
  const diagrams = makeDiagrams(byLevel.map((variable) => variable.cells.length));

  const selected = new Map<string, number>();
  const lines = new Map(input.conditions.map((spec) => [spec.name, spec.lines]));
  for (const name of order) {
    if (names.broken.has(name) || names.references.get(name)!.some(({ to }) => !selected.has(to))) continue;
    let set = NONE;
    // A broken line has been sorted out above, so every condition is there.
    for (const { condition } of lines.get(name)!) set = diagrams.or(set, build(condition!));
    selected.set(name, set);
  }
  const known = (condition: Condition): boolean =>
    [...walkCondition(condition)].every(
      (node) => node.kind !== "mode" || !lines.has(node.name) || selected.has(node.name),
    );
  const setOf = (condition: Condition): number | null => (known(condition) ? build(condition) : null);
  return { names, cycles, variables, diagrams, levels, levelOf, byLevel, selected, setOf };

  function build(condition: Condition): number {
    switch (condition.kind) {
      case "always":
        return EVERY;
      case "mode":
        return selected.get(condition.name) ?? NONE;
      case "not":
        return diagrams.not(build(condition.part));
      case "and":
        return condition.parts.reduce((set, part) => diagrams.and(set, build(part)), EVERY);
      case "or":
        return condition.parts.reduce((set, part) => diagrams.or(set, build(part)), NONE);
      case "is":
        return cellsWhere(condition.control, (cell) => (cell.position === condition.position) !== condition.negated);
      default:
        return pulsesWhere(condition);
    }
  }

  function pulsesWhere(condition: Extract<Condition, { kind: "in" | "above" | "below" }>): number {
    const { subject } = condition;
    const pulseUs = subject.kind === "channel" ? pulsesUs.get(subject.channel) : undefined;
    if (pulseUs !== undefined) return passes(condition, { fromUs: pulseUs, toUs: pulseUs }) ? EVERY : NONE;
    return cellsWhere(testedVariable(subject, names.controls, input)!, (cell) => passes(condition, cell));
  }

  function cellsWhere(name: string, holds: (cell: Cell) => boolean): number {
    const level = levels.get(name)!;
    return diagrams.make(
      level,
      byLevel[level]!.cells.map((cell) => (holds(cell) ? EVERY : NONE)),
    );
  }
}

/**
 * The order in which diagrams ask the variables: as conditions mention them, those of a mode that
 * is named first. What is tested together then lies close together, which keeps diagrams small.
 */
function levelOrder(input: SwitchInput, names: Names, variables: readonly BoardVariable[]): readonly BoardVariable[] {
  const byName = new Map(variables.map((variable) => [variable.name, variable]));
  const placed = new Set<BoardVariable>();
  const visited = new Set<string>();
  const visit = (name: string): void => {
    if (visited.has(name)) return;
    visited.add(name);
    for (const { to } of names.references.get(name)!) visit(to);
    for (const variable of names.mentions.get(name)!) placed.add(byName.get(variable)!);
  };
  for (const { name } of input.conditions) visit(name);
  for (const variable of variables) placed.add(variable);
  return [...placed];
}
