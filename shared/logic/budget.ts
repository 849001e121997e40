/**
 * How much work the logic may do before it says “not known”. A condition can be written in a
 * minute whose diagram has more nodes than a disk has bytes, and no cleverness helps with all of
 * them: whoever types must have an answer all the same.
 *
 * Work is counted in steps and never by the clock, so that a craft gets the same answers on every
 * machine: a step is one node looked at or made, of a variable with few values (see `diagram.ts`).
 * 100,000 of them take 30 to 60 ms on a two-core machine before the code is warm. The whole answer
 * after an edit is to come within 500 ms; a usual craft needs some hundred steps for all of it.
 */
export interface WorkBudget {
  /** For one condition: to understand it, with the nodes that it ends up with. */
  readonly condition: number;
  /** For all conditions of a craft together. Each is sure of an equal share of what is left. */
  readonly craft: number;
  /** Controls and channels that conditions may name; what names those that come after is not followed. */
  readonly variables: number;
  /** More for a craft, by each word of its conditions that asks or joins: a long script has more to read as well. */
  readonly test: number;
  /** For all conditions of a craft together, however long they are. */
  readonly craftAtMost: number;
  /** For one question about sets that are understood: do these two meet? */
  readonly question: number;
  /** For the ways to be in a set, in equal shares for all modes and outputs, since a panel shows those of each. */
  readonly ways: number;
  /** For the distinct states of a craft. */
  readonly states: number;
}

/** The budget of every craft. */
export const BUDGET: WorkBudget = {
  condition: 10_000,
  craft: 40_000,
  test: 4,
  craftAtMost: 100_000,
  variables: 1000,
  question: 30_000,
  ways: 100_000,
  states: 50_000,
};
