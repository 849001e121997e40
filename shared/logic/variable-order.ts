/** In which order diagrams ask their variables: on it hangs how large they become. */
import type { Condition } from "../syntax/condition.ts";
import { type Names, testedVariable } from "./names.ts";
import type { SwitchInput, Variable } from "./switchboard-types.ts";

/**
 * As conditions mention them, those of a mode that is named first, then the others in the order
 * given. What is tested together then mostly lies close together, which keeps diagrams small.
 */
export function mentionOrder(input: SwitchInput, names: Names, variables: readonly Variable[]): readonly string[] {
  const placed = new Set<string>();
  const visited = new Set<string>();
  const visit = (name: string): void => {
    if (visited.has(name)) return;
    visited.add(name);
    for (const { to } of names.references.get(name)!) visit(to);
    for (const variable of names.mentions.get(name)!) placed.add(variable);
  };
  for (const { name } of input.conditions) visit(name);
  for (const { name } of variables) placed.add(name);
  return [...placed];
}

/** Looks at a test in this search for an order: some ten milliseconds. */
const MOST_LOOKS = 400_000;
/** More rounds than so many bring next to nothing. */
const MOST_ROUNDS = 30;

/**
 * The variables that stand in one clause pulled together, from some order on: each in turn goes to
 * the middle of its clauses, and each clause lies in the middle of its variables (Aloul, Markov and
 * Sakallah, "FORCE: A Fast and Easy-To-Implement Variable-Ordering Heuristic", GLSVLSI 2003; from
 * memory). A clause counts the less the more variables it has. Of all rounds the best order is taken.
 */
export function forceOrder(input: SwitchInput, names: Names, start: readonly string[]): readonly string[] {
  const index = new Map(start.map((name, i) => [name, i]));
  const clauses = clausesOf(input, names).map((clause) => clause.map((name) => index.get(name)!));
  const looks = clauses.reduce((sum, clause) => sum + clause.length, 0);
  let places: Float64Array = Float64Array.from(start, (_, i) => i);
  let best = places;
  let least = totalSpan(clauses, places);
  const rounds = Math.min(MOST_ROUNDS, Math.floor(MOST_LOOKS / Math.max(1, looks)));
  for (let round = 0; round < rounds; round++) {
    places = ranks(centresOfGravity(clauses, places));
    const now = totalSpan(clauses, places);
    if (now >= least) break;
    [best, least] = [places, now];
  }
  return start
    .map((name, i) => ({ name, place: best[i]! }))
    .sort((a, b) => a.place - b.place)
    .map(({ name }) => name);
}

const weightOf = (clause: readonly number[]): number => 1 / (clause.length - 1);

/** Each variable in the middle of the middles of its clauses. */
function centresOfGravity(clauses: readonly (readonly number[])[], places: Float64Array): Float64Array {
  const sums = new Float64Array(places.length);
  const weights = new Float64Array(places.length);
  for (const clause of clauses) {
    const middle = clause.reduce((sum, i) => sum + places[i]!, 0) / clause.length;
    const weight = weightOf(clause);
    for (const i of clause) {
      sums[i]! += middle * weight;
      weights[i]! += weight;
    }
  }
  return sums.map((sum, i) => (weights[i]! > 0 ? sum / weights[i]! : places[i]!));
}

/** Places as whole numbers from 0; those on one place keep their order. */
function ranks(places: Float64Array): Float64Array {
  const sorted = [...places.keys()].sort((a, b) => places[a]! - places[b]!);
  const ranked = new Float64Array(places.length);
  sorted.forEach((i, rank) => {
    ranked[i] = rank;
  });
  return ranked;
}

/** How far the clauses reach, all together. */
function totalSpan(clauses: readonly (readonly number[])[], places: Float64Array): number {
  let sum = 0;
  for (const clause of clauses) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const i of clause) {
      low = Math.min(low, places[i]!);
      high = Math.max(high, places[i]!);
    }
    sum += (high - low) * weightOf(clause);
  }
  return sum;
}

/** The variables that stand side by side in one "and" or one "or", where they are two or more. */
function clausesOf(input: SwitchInput, names: Names): string[][] {
  const clauses: string[][] = [];
  const visit = (condition: Condition): string | null => {
    if (condition.kind === "not") return visit(condition.part);
    if (condition.kind === "and" || condition.kind === "or") {
      const clause = new Set(condition.parts.flatMap((part) => visit(part) ?? []));
      if (clause.size > 1) clauses.push([...clause]);
      return null;
    }
    const variable =
      condition.kind === "is"
        ? condition.control
        : "subject" in condition
          ? testedVariable(condition.subject, names.controls, input)
          : null;
    return variable;
  };
  for (const { name, lines } of input.conditions) {
    if (!names.broken.has(name)) for (const { condition } of lines) if (condition) visit(condition);
  }
  return clauses;
}
