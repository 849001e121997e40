/** Answers questions about one craft's switches from decision diagrams. */
import type { Source } from "../model/craft.ts";
import { findBoxes, wholeSpan } from "./boxes.ts";
import { BUDGET, type WorkBudget } from "./budget.ts";
import { type Compiled, compile } from "./compile.ts";
import { countImages, type ImageCount } from "./counting.ts";
import { findCover } from "./cover.ts";
import { EVERY, NONE } from "./diagram.ts";
import { lossState } from "./loss.ts";
import { findIdlePositions, mapOf } from "./map.ts";
import { findMargins } from "./margins.ts";
import { findPrimeImplicants, findWaysBeyond } from "./prime-implicants.ts";
import { truthGiven } from "./quantify.ts";
import { asSet, fixPositions, makeSets } from "./sets.ts";
import { listImages } from "./states.ts";
import type { Positions, StateReport, StateSet, Switchboard, SwitchInput, Witness } from "./switchboard-types.ts";
import { findTour } from "./tour.ts";
import type { Tour } from "./tour-types.ts";
import { findMoves, findWitness, restPositions } from "./witness.ts";

const MOST_WAYS = 200;
const NO_PULSES: ReadonlyMap<number, number> = new Map();

/**
 * Compiles a craft's controls and conditions. Never throws: what is wrong with them is among the
 * answers. Takes at most twice `budget.craftAtMost` steps; each question has a budget of its own.
 */
export function makeSwitchboard(input: SwitchInput, budget: WorkBudget = BUDGET): Switchboard {
  return boardOf(input, compile(input, NO_PULSES, budget), NO_PULSES);
}

/** `base`: the same conditions compiled with no pulse given. */
function boardOf(
  input: SwitchInput,
  compiled: Compiled,
  pulsesUs: ReadonlyMap<number, number>,
  base = compiled,
): Switchboard {
  const { budget } = compiled;
  const { diagrams, selected: sets } = compiled;
  const names = input.conditions.map(({ name }) => name);
  const setUp = new Set(names);
  const knownNames = names.filter((name) => sets.has(name));
  const rest = restPositions(compiled);
  const home = fixPositions(compiled, rest).fixed;
  const nearRest = (set: number): Witness | null => findWitness(compiled, set, rest, home);
  const algebra = makeSets(compiled);

  const selected = (name: string): StateSet | null => {
    const set = sets.get(name);
    if (set !== undefined) return asSet(set);
    return setUp.has(name) ? null : asSet(NONE);
  };
  const armed = armedIn(selected, setUp, algebra.and);
  let counted: { readonly mostSteps: number; readonly count: ImageCount | null } | undefined;
  /** Counts once, and again only where more steps are allowed than those that did not suffice. */
  const imagesWithin = (mostSteps: number): ImageCount | null => {
    if (!counted || (counted.count === null && mostSteps > counted.mostSteps)) {
      counted = { mostSteps, count: countImages(diagrams, sets.values(), mostSteps) };
    }
    return counted.count;
  };
  /** The board with the pulses last given; the same ones are mostly asked for several times. */
  let lastWithPulses: { readonly key: string; readonly board: Switchboard } | undefined;
  /** The tour last asked for: it is asked for again with every key in a script that leaves the switches as they are. */
  let lastTour: { readonly key: string; readonly tour: Tour | null } | undefined;
  const board: Switchboard = {
    input,
    variables: compiled.variables,
    names,
    problems: compiled.names.problems,
    unset: compiled.names.unset,
    cycles: compiled.cycles,
    tangles: compiled.tangles,
    sets: algebra,
    selected,
    armed,
    acts: (name) => {
      let set = selected(name);
      for (const { over, under } of input.precedence ?? []) {
        if (set === null) return null;
        if (over === name || !under.includes(name)) continue;
        // `arm` takes precedence only once the permit is given as well.
        const above = over === "arm" ? armed : selected(over);
        set = above === null ? null : algebra.and(set, algebra.not(above));
      }
      return set;
    },
    rest,
    atRest: algebra.where(rest),
    witness: (set, near) => (set === null ? null : near ? findWitness(compiled, set, near) : nearRest(set)),
    stateAt: (positions) => reportAt(compiled, names, positions),
    linesBehind: (positions) => linesBehind(compiled, input, positions),
    movesTo: (set, from) => findMoves(compiled, set, from),
    waysTo: (set, limit = MOST_WAYS) => findPrimeImplicants(compiled, set, limit, home),
    waysBeyond: (set, known, limit = MOST_WAYS) => findWaysBeyond(compiled, set, known, limit, home),
    boxesWithin: (set, holders) => findBoxes(compiled, set, holders),
    wholeSpan: (variable) => wholeSpan(compiled.byLevel[compiled.levels.get(variable.name)!]!),
    fewestOf: (set, candidates, wish) => findCover(compiled, set, candidates, wish),
    countStates: (mostSteps = budget.states) => imagesWithin(mostSteps)?.total ?? null,
    countStatesWith: (name, mostSteps = budget.states) => {
      const set = selected(name);
      return set === null ? null : (imagesWithin(mostSteps)?.having(set) ?? null);
    },
    listStates: (limit) => listImages(compiled, knownNames, nearRest, limit),
    clashes: (pairs) =>
      pairs.flatMap(([a, b]) => {
        const both = algebra.and(selected(a), selected(b));
        if (both === null || both === NONE) return [];
        return [{ modes: [a, b] as const, witness: nearRest(both)! }];
      }),
    map: () => mapOf(compiled, names),
    // A condition that is not known may distinguish any two positions.
    idlePositions: () => (knownNames.length < names.length ? [] : findIdlePositions(compiled, [...sets.values()])),
    margins: (withinUs) => findMargins(input, compiled.names, withinUs),
    withPulses: (more) => {
      const given = new Map([...pulsesUs, ...more]);
      const key = [...given].join(" ");
      if (lastWithPulses?.key !== key)
        lastWithPulses = { key, board: boardOf(input, compile(input, given, budget, base), given, base) };
      return lastWithPulses.board;
    },
    loss: () => lossState(board, knownNames),
    tour: (wish = {}) => {
      const key = JSON.stringify(wish);
      if (lastTour?.key !== key) lastTour = { key, tour: findTour(compiled, names, wish) };
      return lastTour.tour;
    },
  };
  return board;
}

/** The armed states: those of `arm`, intersected with those of `arm-permit` where it is set up. */
function armedIn(
  selected: (name: string) => StateSet | null,
  setUp: ReadonlySet<string>,
  and: (...sets: (StateSet | null)[]) => StateSet | null,
): StateSet | null {
  const arm = selected("arm");
  if (!setUp.has("arm-permit") || arm === null || arm === NONE) return arm;
  return and(arm, selected("arm-permit"));
}

function linesBehind(
  compiled: Compiled,
  input: SwitchInput,
  positions: Positions,
): (name: string) => readonly Source[] {
  const { fixed } = fixPositions(compiled, positions);
  const linesOf = new Map(input.conditions.map(({ name, lines }) => [name, lines]));
  return (name) => {
    if (!compiled.selected.has(name)) return [];
    // Every line of a mode that is known has a condition, and its set.
    const truths = linesOf.get(name)!.map(({ condition, source }) => {
      const set = compiled.lineSets.get(condition!)!;
      return { source, truth: truthGiven(compiled.diagrams, set, fixed) };
    });
    const certain = truths.filter(({ truth }) => truth === EVERY);
    return (certain.length > 0 ? certain : truths.filter(({ truth }) => truth === 2)).map(({ source }) => source);
  };
}

function reportAt(compiled: Compiled, names: readonly string[], positions: Positions): StateReport {
  const { fixed } = fixPositions(compiled, positions);
  const on: string[] = [];
  const possible: string[] = [];
  const unknown: string[] = [];
  for (const name of names) {
    const set = compiled.selected.get(name);
    if (set === undefined) {
      unknown.push(name);
      continue;
    }
    const truth = truthGiven(compiled.diagrams, set, fixed);
    if (truth === EVERY) on.push(name);
    else if (truth === 2) possible.push(name);
  }
  return { on, possible, unknown };
}
