/** The order of the variables in the diagrams, on which the size of the diagrams depends. */
import type { Condition } from "../syntax/condition.ts";
import type { Names } from "./names.ts";
import type { SwitchInput, Variable } from "./switchboard-types.ts";

/**
 * The variables in the order in which conditions mention them, a mode's conditions at its first
 * mention; variables that are never mentioned come last. Variables tested together are then mostly
 * adjacent, which keeps diagrams small. Linear in the size of the conditions.
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

/** Most visits of a clause's variable in the search for an order: some ten milliseconds. */
const MOST_VISITS = 400_000;
/** Most rounds; after so many the order hardly improves. */
const MOST_ROUNDS = 30;

/**
 * An order in which the variables of a clause are close together, improved from `start` by the FORCE
 * heuristic: in each round every variable moves to the mean of the centres of its clauses, a
 * clause's centre being the mean of its variables (Aloul, Markov and Sakallah, "FORCE: A Fast and
 * Easy-To-Implement Variable-Ordering Heuristic", GLSVLSI 2003; from memory). Clauses are weighted
 * by 1 / (size - 1). Stops at the first round that does not reduce the clauses' total span.
 */
export function forceOrder(input: SwitchInput, names: Names, start: readonly string[]): readonly string[] {
  const index = new Map(start.map((name, i) => [name, i]));
  const clauses = clausesOf(input, names).map((clause) => clause.map((name) => index.get(name)!));
  const visits = clauses.reduce((sum, clause) => sum + clause.length, 0);
  let places: Float64Array = Float64Array.from(start, (_, i) => i);
  let best = places;
  let least = totalSpan(clauses, places);
  const rounds = Math.min(MOST_ROUNDS, Math.floor(MOST_VISITS / Math.max(1, visits)));
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

/** For each variable the weighted mean of its clauses' centres. */
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

/** Places replaced by their ranks, from 0; ties keep their order. */
function ranks(places: Float64Array): Float64Array {
  const sorted = [...places.keys()].sort((a, b) => places[a]! - places[b]!);
  const ranked = new Float64Array(places.length);
  sorted.forEach((i, rank) => {
    ranked[i] = rank;
  });
  return ranked;
}

/** The weighted sum of the clauses' spans, from their first variable to their last. */
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

/** The clauses: variables tested directly in one “and” or one “or”, where there are two or more. */
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
      condition.kind === "is" ? condition.control : "subject" in condition ? names.variableOf(condition.subject) : null;
    return variable;
  };
  for (const { name, lines } of input.conditions) {
    if (!names.broken.has(name)) for (const { condition } of lines) if (condition) visit(condition);
  }
  return clauses;
}
